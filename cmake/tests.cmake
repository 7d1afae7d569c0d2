# SPDX-License-Identifier: MIT
#
# Unit tests: every file is one cmocka program; DS_SOURCE_DIR and DS_TESTS_DIR say where its data lies. Helpers are
# built in the same way and are run by a runner, not by themselves.

find_library(CMOCKA_LIBRARY cmocka REQUIRED)
find_library(JANSSON_LIBRARY jansson REQUIRED)

add_library(ds_test_flags INTERFACE)
target_link_libraries(ds_test_flags INTERFACE
    ds_flags dripstone_core ds_yajl ${CMOCKA_LIBRARY} ${JANSSON_LIBRARY} m)
target_include_directories(ds_test_flags INTERFACE ${PROJECT_SOURCE_DIR}/tests)
target_compile_definitions(ds_test_flags INTERFACE
    DS_SOURCE_DIR="${PROJECT_SOURCE_DIR}"
    DS_TESTS_DIR="${PROJECT_SOURCE_DIR}/tests")

foreach(file ${DS_UNIT_TESTS} ${DS_TEST_HELPERS})
    get_filename_component(name ${file} NAME_WE)
    add_executable(unit_${name} ${file})
    set_target_properties(unit_${name} PROPERTIES OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY tests)
    target_link_libraries(unit_${name} PRIVATE ds_test_flags)
    if(NOT file IN_LIST DS_TEST_HELPERS)
        add_test(NAME ${name} COMMAND unit_${name} WORKING_DIRECTORY ${PROJECT_SOURCE_DIR})
    endif()
endforeach()

find_library(GEOS_LIBRARY geos_c REQUIRED)
target_link_libraries(unit_geos_area PRIVATE ${GEOS_LIBRARY})

find_library(GSL_LIBRARY gsl REQUIRED)
find_library(GSL_BLAS_LIBRARY gslcblas REQUIRED)
foreach(name box_day_ref day_year)
    target_link_libraries(unit_${name} PRIVATE ${GSL_LIBRARY} ${GSL_BLAS_LIBRARY})
endforeach()

foreach(name store_file_ref store_hold store_oom store_ref)
    target_compile_definitions(unit_${name} PRIVATE _XOPEN_SOURCE=700 _DEFAULT_SOURCE)
    target_link_libraries(unit_${name} PRIVATE dripstone_serve)
endforeach()

# It loads the module as the program does.
target_compile_definitions(unit_paper_oom PRIVATE _XOPEN_SOURCE=700)
target_link_libraries(unit_paper_oom PRIVATE ${CMAKE_DL_LIBS})
add_dependencies(unit_paper_oom dripstone_paper)
