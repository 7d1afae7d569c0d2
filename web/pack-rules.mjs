// SPDX-License-Identifier: MIT
//
// packed(packs): { texts, packs } for web/core/unpack.js, which gives the same packs again. A quarter of the rules' size.

import { MARK } from './core/unpack.js'

const LEAST = 12 // shorter texts cost no more where they stand

function count(value, counts) {
    if (typeof value === 'string') counts.set(value, (counts.get(value) ?? 0) + 1)
    else if (value && typeof value === 'object') Object.values(value).forEach((each) => count(each, counts))
}

export function packed(packs) {
    const counts = new Map()
    count(packs, counts)
    if ([...counts.keys()].some((text) => text.startsWith(MARK))) throw new Error(`a text of the rules begins with ${MARK}`)
    const texts = [...counts].filter(([text, times]) => times > 1 && text.length >= LEAST).map(([text]) => text)
    const at = new Map(texts.map((text, index) => [text, MARK + index.toString(36)]))
    const short = (value) => {
        if (typeof value === 'string') return at.get(value) ?? value
        if (Array.isArray(value)) return value.map(short)
        if (value === null || typeof value !== 'object') return value
        return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, short(each)]))
    }
    return { texts, packs: short(packs) }
}
