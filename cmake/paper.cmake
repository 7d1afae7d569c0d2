# SPDX-License-Identifier: MIT
#
# Papers: a library of their own, for the program and its bench. cairo, pango, libqrencode and libxlsxwriter are in no other target.

find_package(PkgConfig REQUIRED)
pkg_check_modules(PANGOCAIRO REQUIRED IMPORTED_TARGET pangocairo)
pkg_check_modules(XLSXWRITER REQUIRED IMPORTED_TARGET xlsxwriter zlib)
pkg_check_modules(QRENCODE REQUIRED IMPORTED_TARGET libqrencode)

add_library(dripstone_paper STATIC ${DS_PAPER_SOURCES})
target_link_libraries(dripstone_paper
    PUBLIC dripstone_core PRIVATE ds_flags PkgConfig::PANGOCAIRO PkgConfig::QRENCODE PkgConfig::XLSXWRITER)
