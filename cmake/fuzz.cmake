# SPDX-License-Identifier: MIT
#
# Fuzz targets, each built in one of two ways: with a main of ours that replays the kept inputs (every ./test), or with
# libFuzzer to search for new ones (preset fuzz, clang-14).

if(DS_FUZZ)
    set(ds_fuzz_flags -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all)
    set(ds_fuzz_main "")
    target_compile_options(dripstone_core PRIVATE -fsanitize=fuzzer-no-link,address,undefined)
else()
    set(ds_fuzz_flags "")
    set(ds_fuzz_main fuzz/replay.c)
endif()

foreach(file ${DS_FUZZ_TARGETS})
    get_filename_component(name ${file} NAME_WE)
    add_executable(fuzz_${name} ${file} ${ds_fuzz_main})
    set_target_properties(fuzz_${name} PROPERTIES OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY fuzz)
    target_compile_options(fuzz_${name} PRIVATE ${ds_fuzz_flags})
    target_link_options(fuzz_${name} PRIVATE ${ds_fuzz_flags})
    target_compile_definitions(fuzz_${name} PRIVATE DS_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
    target_link_libraries(fuzz_${name} PRIVATE ds_flags dripstone_core ds_yajl m)
endforeach()

target_sources(fuzz_request PRIVATE ${DS_SERVE_PLAIN_SOURCES})
