# SPDX-License-Identifier: MIT
#
# The program: one file a command, with the rule data inside.

set(DS_RULES_DIR ${PROJECT_SOURCE_DIR}/rules)
set(ds_embedded src/cli/embedded.S)
list(TRANSFORM DS_EMBEDDED_DATA REPLACE "(.+)" "${DS_RULES_DIR}/\\1.json" OUTPUT_VARIABLE ds_data_files)
set_source_files_properties(${ds_embedded} PROPERTIES
    INCLUDE_DIRECTORIES ${DS_RULES_DIR}
    OBJECT_DEPENDS "${ds_data_files}")

# BOOTSTRAP: the program waits until its main file and the data are there.
set(ds_missing "")
foreach(file ${ds_data_files} ${PROJECT_SOURCE_DIR}/src/cli/main.c)
    if(NOT EXISTS ${file})
        list(APPEND ds_missing ${file})
    endif()
endforeach()
if(ds_missing)
    message(STATUS "program not built yet, missing: ${ds_missing}")
    return()
endif()

add_executable(dripstone ${DS_CLI_SOURCES} ${ds_embedded})
target_link_libraries(dripstone PRIVATE ds_flags dripstone_core ds_yajl m)
