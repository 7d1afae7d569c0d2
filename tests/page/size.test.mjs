// SPDX-License-Identifier: MIT
//
// What the first view needs, packed as the server sends it.

import { ok } from 'node:assert'
import { readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'

const NEEDED = ['index.html', 'app.js', 'worker.js', 'app.css', 'dripstone.wasm', 'atkinson-400.woff2', 'atkinson-700.woff2']
const MOST = 400000

export default [
    { name: 'page and WebAssembly together stay under 400 kB', run: () => {
        const sizes = NEEDED.map((name) => gzipSync(readFileSync(new URL(`../../build/web/${name}`, import.meta.url)), { level: 9 }).length)
        const sum = sizes.reduce((total, size) => total + size)
        ok(sum < MOST, NEEDED.map((name, index) => `${name} ${sizes[index]}`).join(', '))
    } }
]
