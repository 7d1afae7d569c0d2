// SPDX-License-Identifier: MIT
//
// Where a dragged thing comes to rest: on corners and walls first, on edges of other things, else on whole 5 cm. Only for
// editing; pure. A tolerance is in metres (a few pixels on the screen); 0 means no snapping at all.

import { boundsOf, distance, edgesOf, nearestOn, placesOf, shapeOf, tidy, toMillimetre } from './shapes.js'

const GRID_M = 0.05

export const toGrid = (value, step = GRID_M) => tidy(Math.round(value / step) * step)

// What there is to snap to: { walls: [[a, b]], corners, xs, ys }; rooms and things as owners of shapes.
export function targetsOf(rooms, things) {
    const walls = rooms.map(shapeOf).filter(Boolean).flatMap(wallsOf)
    const corners = walls.map(([, to]) => to)
    const edges = things.map(shapeOf).filter(Boolean).flatMap(edgeLines)
    const lines = [...walls, ...edges]
    const along = (axis) => [...new Set(lines.filter(([a, b]) => Math.abs(a[axis] - b[axis]) < 1e-6).map(([a]) => tidy(a[axis])))]
    return { walls, corners, xs: along(0), ys: along(1) }
}

// Straight pieces of a room's wall line; an arc as many short ones.
export function wallsOf(shape) {
    const places = placesOf(shape)
    return places.map((to, i) => [places[(i + places.length - 1) % places.length], to])
}

function edgeLines(shape) {
    if (shape.form === 'outline') return edgesOf(shape.corners).filter(({ through }) => !through).map(({ from, to }) => [from, to])
    return shape.form === 'line' ? [[shape.from, shape.to]] : []
}

const nearest = (list, from, tolerance) => {
    let best = null
    for (const each of list) if (Math.abs(each - from) <= tolerance && (best === null || Math.abs(each - from) < Math.abs(best - from))) best = each
    return best
}

// On a wall: at whole 5 cm from where it begins.
function onWall([a, b], p) {
    const foot = nearestOn(p, a, b)
    const length = distance(a, b)
    if (!length) return a
    const share = Math.max(0, Math.min(length, toGrid(distance(a, foot)))) / length
    return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share].map(toMillimetre)
}

function nearestWall(walls, p) {
    let best = null
    for (const wall of walls) {
        const far = distance(p, nearestOn(p, ...wall))
        if (!best || far < best.far) best = { wall, far }
    }
    return best
}

// One place: a corner, a wall, a line of something, or 5 cm.
export function snapSpot(p, { walls, corners, xs, ys }, tolerance) {
    if (!tolerance) return p.map(toMillimetre)
    const corner = corners.find((each) => distance(each, p) <= tolerance)
    if (corner) return corner.slice(0, 2).map(tidy)
    const wall = nearestWall(walls, p)
    if (wall && wall.far <= tolerance) return onWall(wall.wall, p)
    return [nearest(xs, p[0], tolerance) ?? toGrid(p[0]), nearest(ys, p[1], tolerance) ?? toGrid(p[1])]
}

// How far to move places that are to be moved by dx, dy: [dx, dy]. Each of them may find a line; the lower left corner
// finds the 5 cm.
export function snapMove(places, dx, dy, targets, tolerance) {
    if (!tolerance) return [toMillimetre(dx), toMillimetre(dy)]
    const { low } = boundsOf(places)
    return [0, 1].map((axis) => {
        const way = axis ? dy : dx
        const lines = axis ? targets.ys : targets.xs
        let best = null
        for (const place of places) {
            const line = nearest(lines, place[axis] + way, tolerance)
            const off = line === null ? Infinity : line - place[axis] - way
            if (Math.abs(off) <= tolerance && (best === null || Math.abs(off) < Math.abs(best))) best = off
        }
        return tidy(best === null ? toGrid(low[axis] + way) - low[axis] : way + best)
    })
}

// A door, window or opening of some length on the wall nearest to p: { from, to }; null without walls.
export function snapOntoWall(length, p, walls, tolerance) {
    const found = nearestWall(walls, p)
    if (!found) return null
    const [a, b] = found.wall
    const whole = distance(a, b)
    const reach = Math.min(length, whole)
    const start = distance(a, nearestOn(p, a, b)) - reach / 2
    const begin = Math.max(0, Math.min(whole - reach, tolerance ? toGrid(start) : start))
    const at = (far) => [a[0] + ((b[0] - a[0]) * far) / whole, a[1] + ((b[1] - a[1]) * far) / whole].map(tidy)
    return { from: at(begin), to: at(begin + reach) }
}

// An angle in degrees: whole 15, or whole 1 without snapping.
export const snapAngle = (degrees, free) => (free ? Math.round(degrees) : Math.round(degrees / 15) * 15)
