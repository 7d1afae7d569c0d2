// SPDX-License-Identifier: MIT
//
// Rule packs say many things alike, and too far from each other for the packing of the page to notice. So the build puts
// texts that stand in them more than once into one list (web/pack-rules.mjs), and here they come back. Pure.

export const MARK = '~' // before the number of a text in the list, in base 36

// { texts, packs } -> the packs as they are in rules/.
export function unpacked({ texts, packs }) {
    const whole = (value) => {
        if (typeof value === 'string') return value.startsWith(MARK) ? texts[parseInt(value.slice(MARK.length), 36)] : value
        if (Array.isArray(value)) return value.map(whole)
        if (value === null || typeof value !== 'object') return value
        return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, whole(each)]))
    }
    return packs.map(whole)
}
