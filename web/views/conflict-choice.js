// SPDX-License-Identifier: MIT
//
// A document with another value at a JSON pointer; undefined takes it away. Pure.

const nameOf = (part) => part.replaceAll('~1', '/').replaceAll('~0', '~')

function replaced(owner, [first, ...rest], value) {
    const copy = Array.isArray(owner) ? [...owner] : { ...owner }
    const key = nameOf(first)
    if (rest.length) copy[key] = replaced(owner[key], rest, value)
    else if (value !== undefined) copy[key] = value
    else if (Array.isArray(copy)) copy.splice(Number(key), 1)
    else delete copy[key]
    return copy
}

export const withValueAt = (document, pointer, value) => (pointer === '' ? value : replaced(document, pointer.split('/').slice(1), value))
