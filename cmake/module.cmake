# SPDX-License-Identifier: MIT
#
# The WebAssembly module: the core and its exports, a "reactor" (call _initialize once, then the exports).
#
# The linker's default puts a stack of 64 KiB above the data, where an overflow silently overwrites them. With
# --stack-first it ends in a trap instead.

list(TRANSFORM DS_WASM_EXPORTS PREPEND -Wl,--export= OUTPUT_VARIABLE ds_exports)

add_executable(dripstone ${DS_WASM_SOURCES})
set_target_properties(dripstone PROPERTIES SUFFIX .wasm)
target_link_libraries(dripstone PRIVATE ds_flags dripstone_core ds_yajl)
target_link_options(dripstone PRIVATE
    -mexec-model=reactor
    -Wl,--strip-all
    -Wl,--stack-first
    -Wl,-z,stack-size=1048576
    ${ds_exports})
