# SPDX-License-Identifier: MIT
#
# yajl for WebAssembly: the parser files of the Debian source package, fetched once into build/yajl-src.
# Not our code: none of our warnings.

set(ds_yajl_dir ${PROJECT_SOURCE_DIR}/build/yajl-src)
execute_process(COMMAND ${PROJECT_SOURCE_DIR}/tools/fetch-yajl RESULT_VARIABLE ds_fetched)
if(NOT ds_fetched EQUAL 0)
    message(FATAL_ERROR "no source of yajl: see the lines of fetch-yajl above")
endif()

set(ds_yajl_sources yajl.c yajl_alloc.c yajl_buf.c yajl_encode.c yajl_lex.c yajl_parser.c)
list(TRANSFORM ds_yajl_sources PREPEND ${ds_yajl_dir}/)
add_library(ds_yajl STATIC ${ds_yajl_sources})
target_compile_options(ds_yajl PRIVATE -ffp-contract=off -w)
target_include_directories(ds_yajl PRIVATE ${ds_yajl_dir} SYSTEM PUBLIC ${ds_yajl_dir}/include)
