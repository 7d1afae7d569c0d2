/* SPDX-License-Identifier: MIT */
/*
 * The rule data inside the program, byte for byte as it stands in rules/, so that one file is the whole tool.
 *
 * Each piece is an array of bytes, `extern const unsigned char ds_embedded_X[]`, that ends where `ds_embedded_X_end`
 * begins; a zero byte follows that is not counted. The build gives the folder of the data as an include path (which the
 * assembler searches for .incbin) and assembles this again when the data changes.
 */
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
    embed ds_embedded_words, words.json
    embed ds_embedded_seen, seen.json
    embed ds_embedded_iec, iec.json
    embed ds_embedded_gb_2022, gb-2022.json
    embed ds_embedded_gb_2018, gb-2018.json
    embed ds_embedded_de, de.json
    embed ds_embedded_fr, fr.json
    embed ds_embedded_au, au.json
    embed ds_embedded_entries, entries.json

    .section .note.GNU-stack, "", %progbits
