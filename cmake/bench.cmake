# SPDX-License-Identifier: MIT
#
# Bench programs, build/release/bench/NAME: measured by hand, built by every ./test so that they never rot.

find_library(SQLITE_LIBRARY sqlite3 REQUIRED)

foreach(file ${DS_BENCHES})
    get_filename_component(name ${file} NAME_WE)
    add_executable(bench_${name} ${file})
    set_target_properties(bench_${name} PROPERTIES OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY bench)
    target_compile_definitions(bench_${name} PRIVATE DS_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
    target_link_libraries(bench_${name} PRIVATE ds_flags dripstone_core ds_yajl ${SQLITE_LIBRARY} m)
endforeach()
