// SPDX-License-Identifier: MIT
//
// Words and rules, the same files as in the program, in the program's order.

import au from '../../rules/au.json'
import de from '../../rules/de.json'
import entries from '../../rules/entries.json'
import fr from '../../rules/fr.json'
import gb2018 from '../../rules/gb-2018.json'
import gb2022 from '../../rules/gb-2022.json'
import iec from '../../rules/iec.json'
import seen from '../../rules/seen.json'
import words from '../../rules/words.json'

// Texts as they stand in the files (the build imports them so).
export const rules = [
    { kind: 'words', text: words },
    { kind: 'words', text: seen },
    { kind: 'pack', text: iec },
    { kind: 'pack', text: gb2022 },
    { kind: 'pack', text: gb2018 },
    { kind: 'pack', text: de },
    { kind: 'pack', text: fr },
    { kind: 'pack', text: au },
    { kind: 'sizes', text: entries }
]

const packOf = ({ text }) => {
    const { id, edition, title } = JSON.parse(text)
    return { id, edition, title }
}

// What a person chooses from: { setting, place, kind, measure, … } as lists of { word, label, … }, and the packs.
export const vocabulary = { ...JSON.parse(words), seen: JSON.parse(seen).seen }
export const packs = rules.filter(({ kind }) => kind === 'pack').map(packOf)

const labels = new Map()
for (const list of Object.values(vocabulary).filter(Array.isArray)) {
    for (const { word, label } of list) if (!labels.has(word)) labels.set(word, label)
}

// "rain" -> "Rain, falling nearly straight"; a word that is not known stays as it is.
export const labelOf = (word) => labels.get(word) ?? word
