// SPDX-License-Identifier: MIT
//
// The one door for job documents from outside: files, the server, this browser's shelf. What comes through has lists of
// places and points, each an object with an id; all else stays as it is, for the core to judge. Pure: the core is handed in.
//
//     const document = documentOf(text)        throws an Error that says what is wrong and where
//     const document = fileOf(text, core)      the same in the core's words, with line and column, of the right format too

const WHAT = { places: 'place', points: 'point' }

function listOf(read, key) {
    const list = read[key] ?? []
    if (!Array.isArray(list)) throw new Error(`its ${key} are no list`)
    list.forEach((each, index) => {
        if (each === null || typeof each !== 'object' || Array.isArray(each)) throw new Error(`entry ${index + 1} of its ${key} is no ${WHAT[key]}`)
        if (typeof each.id !== 'string') throw new Error(`entry ${index + 1} of its ${key} has no id`)
    })
    return list
}

export function documentOf(text) {
    const read = JSON.parse(text)
    if (read === null || typeof read !== 'object' || Array.isArray(read)) throw new Error('it is no job document')
    return { ...read, places: listOf(read, 'places'), points: listOf(read, 'points') }
}

// What the core says of a text that it cannot read; '' when it can.
function refusalOf(text, core) {
    try {
        core.judge(text)
        return ''
    } catch ({ problem, message }) {
        if (!problem) throw new Error(message)
        const { problem: what, remedy, line, column } = problem
        return [`${what}${line > 0 ? ` (line ${line}${column > 0 ? `, column ${column}` : ''})` : ''}`, remedy].filter(Boolean).join('. ').replace(/\.+$/, '')
    }
}

export function fileOf(text, core) {
    let read
    try {
        read = documentOf(text)
    } catch (error) {
        throw new Error(refusalOf(text, core) || error.message)
    }
    if (read.dripstone !== 1) throw new Error(refusalOf(text, core) || 'it is no job of format 1')
    return read
}
