# SPDX-License-Identifier: MIT
#
# The pure core, and yajl under it: the system's package natively, the same package's source for WebAssembly.

if(DS_WASM)
    include(cmake/yajl.cmake)
else()
    find_library(YAJL_LIBRARY yajl REQUIRED)
    find_path(YAJL_INCLUDE_DIR yajl/yajl_parse.h REQUIRED)
    add_library(ds_yajl INTERFACE)
    target_link_libraries(ds_yajl INTERFACE ${YAJL_LIBRARY})
    target_include_directories(ds_yajl SYSTEM INTERFACE ${YAJL_INCLUDE_DIR})
endif()

add_library(dripstone_core STATIC ${DS_CORE_SOURCES})
if(NOT DS_WASM)
    set_target_properties(dripstone_core PROPERTIES POSITION_INDEPENDENT_CODE ON) # papers are a module
endif()
target_link_libraries(dripstone_core PRIVATE ds_flags ds_yajl INTERFACE m)

# The day model steps eight boxes at a time in vector registers, where the compiler may take a branch for a choice between
# two numbers; that needs to be told that nobody reads the flags which the number not taken might raise.
set(ds_lanes ${DS_CORE_SOURCES})
list(FILTER ds_lanes INCLUDE REGEX "/box/day_(keep|step|vapour|weather)\\.c$")
set_source_files_properties(${ds_lanes} PROPERTIES COMPILE_OPTIONS
    "-fno-math-errno;-fno-trapping-math;$<$<CONFIG:Release,RelWithDebInfo>:-O3>")
