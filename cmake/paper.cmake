# SPDX-License-Identifier: MIT
#
# Papers: a module that the program loads when one is asked for, since cairo, pango and what they need take longer to load
# than most answers take to give. They, libqrencode and libxlsxwriter are in no other target.

find_package(PkgConfig REQUIRED)
pkg_check_modules(PANGOCAIRO REQUIRED IMPORTED_TARGET pangocairo)
pkg_check_modules(XLSXWRITER REQUIRED IMPORTED_TARGET xlsxwriter zlib)
pkg_check_modules(FONTCONFIG REQUIRED IMPORTED_TARGET fontconfig)
pkg_check_modules(QRENCODE REQUIRED IMPORTED_TARGET libqrencode)

# The faces of the house, unpacked by tools/paper-fonts and put into the module.
set(ds_fonts ${CMAKE_BINARY_DIR}/fonts)
list(TRANSFORM DS_PAPER_FACES REPLACE "(.+)" "${ds_fonts}/\\1.ttf" OUTPUT_VARIABLE ds_font_files)
add_custom_command(
    OUTPUT ${ds_font_files}
    COMMAND ${PROJECT_SOURCE_DIR}/tools/paper-fonts ${ds_fonts}
    DEPENDS ${PROJECT_SOURCE_DIR}/tools/paper-fonts ${PROJECT_SOURCE_DIR}/web/package-lock.json
    COMMENT "unpacking the fonts of papers"
    VERBATIM)
set_source_files_properties(${DS_PAPER_FONTS_SOURCE} PROPERTIES
    INCLUDE_DIRECTORIES ${ds_fonts}
    OBJECT_DEPENDS "${ds_font_files}")

add_library(dripstone_paper MODULE ${DS_PAPER_SOURCES} ${DS_PAPER_PLAIN_SOURCES} ${DS_PAPER_FONTS_SOURCE})
set_target_properties(dripstone_paper PROPERTIES
    PREFIX "" OUTPUT_NAME dripstone-paper LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR})
target_link_libraries(dripstone_paper PRIVATE
    ds_flags dripstone_core ds_yajl PkgConfig::PANGOCAIRO PkgConfig::FONTCONFIG PkgConfig::QRENCODE PkgConfig::XLSXWRITER m)
