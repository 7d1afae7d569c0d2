// SPDX-License-Identifier: MIT
//
// Words and rules, the same files as in the program, in the program's order.

import packedPacks from 'rules:packs'
import entries from '../../rules/entries.json'
import seen from '../../rules/seen.json'
import words from '../../rules/words.json'
import { unpacked } from './unpack.js'

// In the order in which a person is asked.
const known = unpacked(JSON.parse(packedPacks))

// Texts as they stand in the files, without the blanks (the build sees to it).
export const rules = [
    { kind: 'words', text: words },
    { kind: 'words', text: seen },
    ...known.map((pack) => ({ kind: 'pack', text: JSON.stringify(pack) })),
    { kind: 'sizes', text: entries }
]

// What a person chooses from: { setting, place, kind, measure, … } as lists of { word, label, … }, and the packs.
export const vocabulary = { ...JSON.parse(words), seen: JSON.parse(seen).seen }
export const packs = known.map(({ id, edition, title }) => ({ id, edition, title }))

const labels = new Map()
for (const list of Object.values(vocabulary).filter(Array.isArray)) {
    for (const { word, label } of list) if (!labels.has(word)) labels.set(word, label)
}

// "rain" -> "Rain, falling nearly straight"; a word that is not known stays as it is.
export const labelOf = (word) => labels.get(word) ?? word
