// SPDX-License-Identifier: MIT
//
// What the page lets a column fill is what the core knows: no key more, none less.

import { deepStrictEqual as same, ok, strictEqual } from 'node:assert'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { IMPORT_KEYS } from '../../web/views/import-keys.js'
import { openModule } from '../support/wasm.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))
const JOB = '{ "dripstone": 1, "title": "", "rules": ["iec"], "places": [], "points": [] }'
const keys = IMPORT_KEYS.flatMap((group) => group.keys.map(({ key }) => key))

// What is made of a column that a mapping sends to a key: null when the core does not take it.
async function taken(list) {
    const ask = await openModule(`${root}/build/wasm/dripstone.wasm`, root)
    return list.filter((key) => {
        const { columns, problem } = JSON.parse(ask('import', JOB, 'Strange heading\n1\n', JSON.stringify({ dripstone_map: 1, columns: { 'Strange heading': key } })))
        return !problem && columns[0].key === key
    })
}

export default [
    { name: 'every key that is offered is taken, no other', run: async () => {
        same(await taken([...keys, 'no.such.key']), keys)
    } },
    { name: 'no key and no label stands twice', run: () => {
        const labels = IMPORT_KEYS.flatMap((group) => group.keys.map(({ label }) => `${group.group}: ${label}`))
        strictEqual(new Set(keys).size, keys.length)
        strictEqual(new Set(labels).size, labels.length)
    } },
    { name: 'the documentation names them all', run: () => {
        const text = readFileSync(`${root}/docs/import.md`, 'utf8')
        for (const key of keys) ok(text.includes(key.split('.').pop()), key)
    } }
]
