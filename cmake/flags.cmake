# SPDX-License-Identifier: MIT
#
# Flags for our own C files. -ffp-contract=off keeps the last digit of a result the same natively and in WebAssembly.

add_library(ds_flags INTERFACE)
target_include_directories(ds_flags INTERFACE ${PROJECT_SOURCE_DIR}/src)
target_compile_options(ds_flags INTERFACE
    -ffp-contract=off
    $<$<COMPILE_LANGUAGE:C>:-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes>
    $<$<BOOL:${DS_WERROR}>:-Werror>)
target_compile_definitions(ds_flags INTERFACE DS_VERSION="${PROJECT_VERSION}")

# A header that this wasi-libc lacks (setjmp.h) would silently be taken from the host's include folder, so that folder
# is closed: no standard folders but the compiler's own, then the WASI headers.
if(DS_WASM)
    add_compile_options(-nostdlibinc -idirafter /usr/include/wasm32-wasi)
endif()
