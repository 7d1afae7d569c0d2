/* SPDX-License-Identifier: MIT */
/* The faces of the house (SIL Open Font License 1.1, named in each file), as tools/paper-fonts unpacks them. */
    .macro embed symbol, file
    .balign 16
    .globl \symbol
    .hidden \symbol
    .globl \symbol\()_end
    .hidden \symbol\()_end
\symbol:
    .incbin "\file"
\symbol\()_end:
    .byte 0
    .endm

    .section .rodata
    embed ds_font_regular, latin-400.ttf
    embed ds_font_bold, latin-700.ttf
    embed ds_font_regular_more, latin-ext-400.ttf
    embed ds_font_bold_more, latin-ext-700.ttf

    .section .note.GNU-stack, "", %progbits
