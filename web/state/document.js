// SPDX-License-Identifier: MIT
//
// The job document as the page edits it: plain objects that are never changed, only replaced. So undo is the earlier
// document, and what changed is what is no longer the same object. Pure functions, no page.
//
//     withPoint(document, 'P1', (point) => ({ ...point, name: 'Socket' }))

const replaced = (list, id, change) => list.map((each) => (each.id === id ? change(each) : each))

// Sets a key, or takes it away when the value says nothing: documents stay free of empty keys.
export function withKey(object, key, value) {
    const { [key]: _, ...rest } = object
    const empty = value === undefined || value === null || value === '' || (Array.isArray(value) && !value.length)
    return empty ? rest : { ...object, [key]: value }
}

export const pointOf = (document, id) => document.points.find((point) => point.id === id)
export const placeOf = (document, id) => document.places.find((place) => place.id === id)
export const pointsAt = (document, placeId) => document.points.filter((point) => point.place === placeId)

export const withPoint = (document, id, change) => ({ ...document, points: replaced(document.points, id, change) })
export const withPlace = (document, id, change) => ({ ...document, places: replaced(document.places, id, change) })

// Several points at once: ids is a Set.
export const withPoints = (document, ids, change) => ({
    ...document,
    points: document.points.map((point) => (ids.has(point.id) ? change(point) : point))
})

export const withoutPoints = (document, ids) => ({ ...document, points: document.points.filter(({ id }) => !ids.has(id)) })

// A place goes with its points.
export const withoutPlace = (document, id) => ({
    ...document,
    places: document.places.filter((place) => place.id !== id),
    points: document.points.filter((point) => point.place !== id)
})

const stemOf = (id) => /^(.*?)\d*$/s.exec(id)[1]

// The number after the highest that ids of the stem have.
function numberAfter(list, stem) {
    const numbers = list.filter(({ id }) => id.startsWith(stem) && /^\d{1,9}$/.test(id.slice(stem.length))).map(({ id }) => Number(id.slice(stem.length)))
    return numbers.reduce((most, number) => Math.max(most, number), 0) + 1
}

// "P7" after "P6": the letters of the id that it follows (the last one unless told), and a number that is free.
export function freeId(list, start, like = list[list.length - 1]?.id ?? '') {
    const stem = (/\d$/.test(like) && stemOf(like)) || start
    return stem + numberAfter(list, stem)
}

// A word for an id out of a name: "Glaze room" -> "glaze-room", made free by a number.
export function idFromName(list, name, start) {
    const taken = new Set(list.map(({ id }) => id))
    const word = name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '').slice(0, 24) || start
    let id = word
    for (let number = 2; taken.has(id); number++) id = `${word}-${number}`
    return id
}

export const addPlace = (document, place) => ({ ...document, places: [...document.places, place] })

// After the point it was made from, or at the end.
export function addPoint(document, point, afterId) {
    const at = afterId ? document.points.findIndex(({ id }) => id === afterId) + 1 : document.points.length
    return { ...document, points: document.points.toSpliced(at, 0, point) }
}

// A copy after each of the points, with ids that are free; what was found on one thing is not said of another.
export function withCopies(document, ids) {
    const next = new Map()
    const copyOf = (point) => {
        const stem = stemOf(point.id) || 'P'
        const number = next.get(stem) ?? numberAfter(document.points, stem)
        next.set(stem, number + 1)
        return { ...withKey(point, 'found', undefined), id: stem + number }
    }
    return { ...document, points: document.points.flatMap((point) => (ids.has(point.id) ? [point, copyOf(point)] : [point])) }
}

export function emptyDocument({ title, pack, date }) {
    return { dripstone: 1, title, rules: [pack], date, places: [], points: [] }
}

// --- words of a survey ----------------------------------------------------------------------------------------------

const wordOf = (each) => (typeof each === 'string' ? each : each.word)
const listed = (value) => (Array.isArray(value) ? value : [])

export const hasSeen = (owner, word) => listed(owner.seen).some((each) => wordOf(each) === word)
export const isAbsent = (owner, word) => listed(owner.absent).includes(word)

// Figures that go with a seen word, such as { depth_m }; {} when there are none.
export function figuresOf(owner, word) {
    const found = listed(owner.seen).find((each) => typeof each === 'object' && each.word === word)
    const { word: _, ...figures } = found ?? {}
    return figures
}

const without = (list, word) => listed(list).filter((each) => wordOf(each) !== word)

// state: 'seen', 'absent' or '' (not said). Figures stay with a word that was seen before.
export function withWord(owner, word, state, figures) {
    const kept = figures ?? figuresOf(owner, word)
    const entry = Object.keys(kept).length ? { word, ...kept } : word
    const place = state === 'seen' && hasSeen(owner, word) ? listed(owner.seen).map((each) => (wordOf(each) === word ? entry : each)) : undefined
    const seen = place ?? (state === 'seen' ? [...without(owner.seen, word), entry] : without(owner.seen, word))
    const absent = state === 'absent' ? [...without(owner.absent, word), word] : without(owner.absent, word)
    return withKey(withKey(owner, 'seen', owner.seen === 'none' && !seen.length ? 'none' : seen), 'absent', absent)
}

// --- text -----------------------------------------------------------------------------------------------------------

const texts = new WeakMap()

// The text of a member, made once for as long as it is the same object.
function textOf(member) {
    const known = texts.get(member)
    if (known !== undefined) return known
    const text = JSON.stringify(member)
    texts.set(member, text)
    return text
}

// The whole document, one place or point a line: small differences stay small, and an edit of one point costs one point.
export function documentText(document) {
    const { places, points, ...head } = document
    const keys = Object.entries(head).map(([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)}`)
    const list = (key, members) => `${JSON.stringify(key)}: [${members.length ? `\n    ${members.map(textOf).join(',\n    ')}\n  ` : ''}]`
    return `{\n  ${[...keys, list('places', places), list('points', points)].join(',\n  ')}\n}\n`
}
