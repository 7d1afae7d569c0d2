# SPDX-License-Identifier: MIT
#
# The page's server, with the page inside: tools/build-page makes both the WebAssembly module and the page when anything
# that they are made of has changed.

find_package(PkgConfig REQUIRED)
pkg_check_modules(MHD REQUIRED IMPORTED_TARGET libmicrohttpd)
pkg_check_modules(SQLITE REQUIRED IMPORTED_TARGET sqlite3)

list(TRANSFORM DS_PAGE_SOURCES PREPEND ${PROJECT_SOURCE_DIR}/ OUTPUT_VARIABLE ds_web_files)
list(TRANSFORM DS_CORE_SOURCES PREPEND ${PROJECT_SOURCE_DIR}/ OUTPUT_VARIABLE ds_core_files)
list(TRANSFORM DS_WASM_SOURCES PREPEND ${PROJECT_SOURCE_DIR}/ OUTPUT_VARIABLE ds_wasm_files)

set(ds_page ${CMAKE_BINARY_DIR}/page)
add_custom_command(
    OUTPUT ${ds_page}/page_files.c ${ds_page}/page_bytes.S
    COMMAND ${PROJECT_SOURCE_DIR}/tools/build-page ${ds_page}
    DEPENDS ${PROJECT_SOURCE_DIR}/tools/build-page ${ds_web_files} ${ds_core_files} ${ds_wasm_files} ${ds_data_files}
    COMMENT "building the page"
    VERBATIM)

add_library(dripstone_serve STATIC
    ${DS_SERVE_SOURCES} ${DS_SERVE_PLAIN_SOURCES} ${ds_page}/page_files.c ${ds_page}/page_bytes.S)
target_compile_definitions(dripstone_serve PRIVATE _XOPEN_SOURCE=700 _DEFAULT_SOURCE)
target_link_libraries(dripstone_serve PRIVATE ds_flags PUBLIC dripstone_core PkgConfig::MHD PkgConfig::SQLITE)
