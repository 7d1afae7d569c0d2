// SPDX-License-Identifier: MIT
//
// Judging what an edit touched. A finding rests on the head of the job, the point, and its place, so a job of only these
// gives the same finding as the whole one, in a millisecond. Pure: the core is handed in.

import { documentText } from './document.js'

// A job of some points and all that their findings rest on.
export function jobAround(document, points) {
    const needed = new Set(points.map(({ place }) => place))
    return { ...document, places: document.places.filter(({ id }) => needed.has(id)), points }
}

// What two lists hold between an equal beginning and an equal end: after an edit little, however long they are.
function differing(a, b) {
    const least = Math.min(a.length, b.length)
    let start = 0
    while (start < least && a[start] === b[start]) start++
    let end = 0
    while (end < least - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++
    return [a.slice(start, a.length - end), b.slice(start, b.length - end)]
}

function fresh(before, after) {
    const known = new Set(before)
    return after.filter((each) => !known.has(each))
}

// Points whose findings an edit may have changed: all when the head changed, else those changed or of a changed place.
export function touchedPoints(before, after) {
    if (before === after) return []
    const { places: a, points: b, ...oldHead } = before
    const { places: c, points: d, ...newHead } = after
    if (JSON.stringify(oldHead) !== JSON.stringify(newHead)) return after.points
    const [oldPlaces, newPlaces] = differing(a, c)
    const [oldPoints, newPoints] = differing(b, d)
    const places = new Set(fresh(oldPlaces, newPlaces).map(({ id }) => id))
    const there = new Set(newPlaces.map(({ id }) => id))
    oldPlaces.filter(({ id }) => !there.has(id)).forEach(({ id }) => places.add(id))
    const touched = fresh(oldPoints, newPoints)
    if (!places.size) return touched
    const isTouched = new Set(touched)
    return d.filter((point) => isTouched.has(point) || places.has(point.place))
}

export function judgePoints(core, document, points) {
    return core.judge(documentText(jobAround(document, points))).points
}

// The whole finding of one point; undefined when there is no such point.
export function findingOf(core, document, id) {
    const point = document.points.find((each) => each.id === id)
    return point && judgePoints(core, document, [point])[0]
}

// A job of one place with its points, for its zones and drawing.
export const placeText = (document, placeId) =>
    documentText({
        ...document,
        places: document.places.filter(({ id }) => id === placeId),
        points: document.points.filter(({ place }) => place === placeId)
    })
