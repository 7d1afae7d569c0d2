// SPDX-License-Identifier: MIT
//
// node web/embed.mjs FOLDER OUT: the files of a finished page (web/build.mjs) as sources of the program: OUT/page_files.c,
// their table, and OUT/page_bytes.S, their bytes, plain and packed. Same files, same sources.

import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { extname, join, resolve } from 'node:path'
import { gzipSync } from 'node:zlib'

const [folder, out] = process.argv.slice(2).map((path) => resolve(path))

const TYPES = {
    '.html': 'text/html; charset=utf-8',
    '.js': 'text/javascript; charset=utf-8',
    '.css': 'text/css; charset=utf-8',
    '.svg': 'image/svg+xml',
    '.wasm': 'application/wasm',
    '.woff2': 'font/woff2',
    '.webmanifest': 'application/manifest+json'
}

// Copies, since another build may make the page anew while the assembler of this one still reads.
mkdirSync(join(out, 'plain'), { recursive: true })
mkdirSync(join(out, 'packed'), { recursive: true })
const files = readdirSync(folder).sort().map((name, index) => {
    const bytes = readFileSync(join(folder, name))
    const packed = gzipSync(bytes, { level: 9 })
    const type = TYPES[extname(name)]
    if (!type) throw new Error(`${name}: no type is known for such a file`)
    const smaller = packed.length < bytes.length * 0.9
    const packedPath = join(out, 'packed', `${name}.gz`)
    const path = join(out, 'plain', name)
    writeFileSync(path, bytes)
    if (smaller) writeFileSync(packedPath, packed)
    return { name, index, type, bytes, path, packed: smaller ? packedPath : null, packedLen: smaller ? packed.length : 0,
        tag: createHash('sha256').update(bytes).digest('hex').slice(0, 16) }
})

const symbol = (kind, { index }) => `ds_page_${kind}_${index}`
const bytesOf = (name, path) => `    .global ${name}\n    .hidden ${name}\n    .balign 16\n${name}:\n    .incbin "${path}"\n`
writeFileSync(join(out, 'page_bytes.S'), `    .section .rodata\n${files.map((file) => bytesOf(symbol('plain', file), file.path) + (file.packed ? bytesOf(symbol('packed', file), file.packed) : '')).join('')}    .section .note.GNU-stack, "", %progbits\n`)

const declared = files.map((file) => `extern const unsigned char ${symbol('plain', file)}[]${file.packed ? `, ${symbol('packed', file)}[]` : ''};`)
const rows = files.map((file) => `    {"${file.name}", "${file.type}", "W/\\"${file.tag}\\"", ${symbol('plain', file)}, ${file.packed ? symbol('packed', file) : '0'}, ${file.bytes.length}, ${file.packedLen}},`)
writeFileSync(join(out, 'page_files.c'), `#include "serve/files.h"\n\n${declared.join('\n')}\n\nconst ds_page_file DS_PAGE_FILES[] = {\n${rows.join('\n')}\n};\nconst size_t DS_PAGE_FILES_LEN = sizeof DS_PAGE_FILES / sizeof *DS_PAGE_FILES;\n`)
