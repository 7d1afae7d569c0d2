// SPDX-License-Identifier: MIT
//
// What a thing becomes while it is dragged: always from where the drag began, so that nothing adds up. Pure.

import { handled, movedItem, roomsOf } from './items.js'
import { distance, middle, moved, spotOf } from './shapes.js'
import { snapAngle, snapMove, snapOntoWall, snapSpot, targetsOf, toGrid } from './snap.js'
import { thingOf } from './things.js'

// What the others offer to snap to.
export const targetsFor = (plan, item) => targetsOf(
    roomsOf(plan).filter((room, index) => item.key !== `room:${index}`),
    (plan.features ?? []).filter((feature, index) => item.key !== `thing:${index}`)
)

// Places of a shape that may find a wall or a line.
function edgesOfShape(shape) {
    if (shape.form === 'outline') return shape.corners.map(spotOf)
    if (shape.form === 'line') return [shape.from, shape.to]
    if (shape.form === 'slope') return shape.places
    const [[x, y], r] = [shape.centre, shape.radius]
    return [[x - r, y], [x + r, y], [x, y - r], [x, y + r]]
}

function draggedHandle(item, name, p, targets, tolerance) {
    const free = !tolerance
    if (name.startsWith('wall')) return handled(item, name, free ? p : p.map((value) => toGrid(value)))
    if (name === 'radius') return handled(item, name, free ? p : [item.shape.centre[0] + Math.max(0.05, toGrid(distance(item.shape.centre, p))), item.shape.centre[1]])
    if (name === 'turn') return handled(item, name, p, (degrees) => snapAngle(degrees, free))
    return handled(item, name, snapSpot(p, targets, tolerance))
}

// item as it was when the drag began; from, to: where the pointer was and is; tolerance 0: no snapping. Gives the owner.
export function dragged({ item, handle, from, to, targets, tolerance }) {
    if (handle) return draggedHandle(item, handle, to, targets, tolerance)
    const { owner, shape, kind } = item
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
    if (shape.form === 'spot') {
        const [x, y] = snapSpot([shape.at[0] + dx, shape.at[1] + dy], targets, tolerance)
        return movedItem(item, x - shape.at[0], y - shape.at[1])
    }
    if (thingOf(kind).onWall && tolerance && targets.walls.length) {
        const m = middle(shape.from, shape.to)
        const place = snapOntoWall(distance(shape.from, shape.to), [m[0] + dx, m[1] + dy], targets.walls, tolerance)
        return { ...owner, from_m: place.from, to_m: place.to }
    }
    return moved(owner, ...snapMove(edgesOfShape(shape), dx, dy, targets, tolerance))
}
