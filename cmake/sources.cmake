# SPDX-License-Identifier: MIT
#
# BOOTSTRAP, to be replaced by lists written by hand: every source file while the tree is first being written.

file(GLOB DS_CORE_SOURCES CONFIGURE_DEPENDS src/core/*/*.c)
file(GLOB DS_CLI_SOURCES CONFIGURE_DEPENDS src/cli/*.c)
file(GLOB DS_WASM_SOURCES CONFIGURE_DEPENDS src/wasm/*.c)
file(GLOB DS_UNIT_TESTS CONFIGURE_DEPENDS tests/unit/*.c)
file(GLOB DS_BENCHES CONFIGURE_DEPENDS bench/*.c)
file(GLOB DS_FUZZ_TARGETS CONFIGURE_DEPENDS fuzz/*.c)
list(FILTER DS_FUZZ_TARGETS EXCLUDE REGEX "/replay[.]c$")
set(DS_EMBEDDED_DATA words seen iec gb-2022 gb-2018)
