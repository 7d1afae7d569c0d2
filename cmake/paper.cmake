# SPDX-License-Identifier: MIT
#
# Papers: a module that the program loads when one is asked for, since cairo, pango and what they need take longer to load
# than most answers take to give. They, libqrencode and libxlsxwriter are in no other target.

find_package(PkgConfig REQUIRED)
pkg_check_modules(PANGOCAIRO REQUIRED IMPORTED_TARGET pangocairo)
pkg_check_modules(XLSXWRITER REQUIRED IMPORTED_TARGET xlsxwriter zlib)
pkg_check_modules(QRENCODE REQUIRED IMPORTED_TARGET libqrencode)

add_library(dripstone_paper MODULE ${DS_PAPER_SOURCES} ${DS_PAPER_PLAIN_SOURCES})
set_target_properties(dripstone_paper PROPERTIES
    PREFIX "" OUTPUT_NAME dripstone-paper LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR})
target_link_libraries(dripstone_paper PRIVATE
    ds_flags dripstone_core ds_yajl PkgConfig::PANGOCAIRO PkgConfig::QRENCODE PkgConfig::XLSXWRITER m)
