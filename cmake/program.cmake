# SPDX-License-Identifier: MIT
#
# The program: one file a command, with the rule data inside. It may use POSIX and X/Open, the core may not.

set(DS_RULES_DIR ${PROJECT_SOURCE_DIR}/rules)
list(TRANSFORM DS_EMBEDDED_DATA REPLACE "(.+)" "${DS_RULES_DIR}/\\1.json" OUTPUT_VARIABLE ds_data_files)
set_source_files_properties(${DS_EMBEDDED_SOURCE} PROPERTIES
    INCLUDE_DIRECTORIES ${DS_RULES_DIR}
    OBJECT_DEPENDS "${ds_data_files}")

include(cmake/paper.cmake)

include(${CMAKE_CURRENT_LIST_DIR}/serve.cmake)

add_executable(dripstone ${DS_CLI_SOURCES} ${DS_PAPER_PLAIN_SOURCES} ${DS_EMBEDDED_SOURCE})
add_dependencies(dripstone dripstone_paper)
target_compile_definitions(dripstone PRIVATE _XOPEN_SOURCE=700)
target_link_libraries(dripstone PRIVATE ds_flags dripstone_serve dripstone_core ds_yajl ${CMAKE_DL_LIBS} m)
