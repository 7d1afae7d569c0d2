# SPDX-License-Identifier: MIT
#
# Bench programs: built with the tests so that they never rot, run by hand (bench/run). The peer of the mark bench is
# SQLite, that of the zone bench GEOS.

find_library(SQLITE_LIBRARY sqlite3 REQUIRED)
find_library(GEOS_LIBRARY geos_c REQUIRED)

foreach(file ${DS_BENCHES})
    get_filename_component(name ${file} NAME_WE)
    add_executable(bench_${name} ${file})
    set_target_properties(bench_${name} PROPERTIES OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY bench)
    target_compile_definitions(bench_${name} PRIVATE _DEFAULT_SOURCE
        DS_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
    target_link_libraries(bench_${name} PRIVATE ds_flags dripstone_core ds_yajl ${SQLITE_LIBRARY} ${GEOS_LIBRARY} m)
endforeach()
