// SPDX-License-Identifier: MIT
//
// The page's rules are those of the program, to the byte, however they were packed.

import { ok, strictEqual, throws } from 'node:assert'
import { readdirSync, readFileSync } from 'node:fs'
import { unpacked } from '../../web/core/unpack.js'
import { packed } from '../../web/pack-rules.mjs'

const folder = new URL('../../rules/', import.meta.url)
const all = readdirSync(folder).filter((name) => name.endsWith('.json')).map((name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8')))

export default [
    { name: 'packed and unpacked, every rule file is as it was, keys in the same order', run: () => {
        const again = unpacked(JSON.parse(JSON.stringify(packed(all))))
        all.forEach((pack, index) => strictEqual(JSON.stringify(again[index]), JSON.stringify(pack)))
    } },
    { name: 'it is smaller by it', run: () => ok(JSON.stringify(packed(all)).length < 0.8 * JSON.stringify(all).length) },
    { name: 'a text that looks packed is refused', run: () => throws(() => packed([{ because: '~1' }]), /begins with/) }
]
