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

// Points whose findings an edit may have changed: all when the head changed, else those changed or of a changed place.
export function touchedPoints(before, after) {
    if (before === after) return []
    const { places: a, points: b, ...oldHead } = before
    const { places: c, points: d, ...newHead } = after
    if (JSON.stringify(oldHead) !== JSON.stringify(newHead)) return after.points
    const oldPlaces = new Set(before.places)
    const oldPoints = new Set(before.points)
    const places = new Set(after.places.filter((place) => !oldPlaces.has(place)).map(({ id }) => id))
    const gone = new Set(after.places.map(({ id }) => id))
    before.places.filter(({ id }) => !gone.has(id)).forEach(({ id }) => places.add(id))
    return after.points.filter((point) => !oldPoints.has(point) || places.has(point.place))
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
