// SPDX-License-Identifier: MIT
//
// The stretched string a second time, on a grid, so that the graph of corners is not believed on its own word. Free room
// is a bitmap filled row by row; nothing here asks where lines cross.
//
// Nodes stand `cell` apart; each has 32 ways, (1,0) (1,1) (2,1) (3,1) (3,2) and their mirror images, and a way is free
// when the bitmap, four times as fine, is free along it. Two bounds come out for the length d of the shortest string:
//
// - from above: the way found on the grid is pulled taut (cut short where the straight line is free, bends moved to
//   corners close by). It is a way, so d is not longer. Most often it is d within 2 mm; it may be longer where two ways
//   round something are nearly as long as each other and the grid took the wrong one, then by 1.4 parts in a hundred.
// - from below: a shortest string of n straight pieces is followed on the grid by nodes no farther off than 0.71 cells at
//   its bends and 1 cell between them (two neighbouring ways span the whole lattice), so it runs in free room that has
//   grown by 2 cells. Neighbouring ways are at most 18.44 degrees apart: the detour is at most 1 / cos(9.22 degrees).
//   So g <= 1.0131 (d + n sqrt(2) cell) for the length g found in the grown room.

import { add, distance, edgesOf, left, pointsAlong, sub, times, unit } from './plane.mjs'
import { isFree } from './string.mjs'

const cell = 0.01
const parts = 4
const fine = cell / parts
const detour = 1 / Math.cos(Math.atan2(1, 3) / 2)
const pieces = 4
const ways = [[1, 0], [1, 1], [2, 1], [1, 2], [3, 1], [1, 3], [3, 2], [2, 3]].flatMap(([x, y]) => [[x, y], [-y, x], [-x, -y], [y, -x]])

/* --- bitmaps ----------------------------------------------------------------------------------------------------- */

// The window of a source: its box, wider by the reach. Bits lie at the middles of fine cells' corners: (i, j) * fine.
function windowOf(starts, reach) {
    const low = [0, 1].map((axis) => Math.floor((Math.min(...starts.map((p) => p[axis])) - reach) / cell) * cell)
    const high = [0, 1].map((axis) => Math.max(...starts.map((p) => p[axis])) + reach)
    const [columns, rows] = [0, 1].map((axis) => Math.ceil((high[axis] - low[axis]) / cell) + 1)
    return { low, columns, rows, fineColumns: columns * parts, fineRows: rows * parts }
}

// Sets the bits inside a polygon: each row lies inside between the first and second, third and fourth … crossing.
function fill({ low, fineColumns, fineRows }, bits, polygon, value) {
    for (let j = 0; j < fineRows; j++) {
        const y = low[1] + j * fine
        const xs = edgesOf(polygon).filter(([a, b]) => (a[1] > y) !== (b[1] > y))
            .map(([a, b]) => a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1])).sort((a, b) => a - b)
        for (let k = 0; k + 1 < xs.length; k += 2) {
            const from = Math.max(0, Math.ceil((xs[k] - low[0]) / fine))
            const to = Math.min(fineColumns - 1, Math.floor((xs[k + 1] - low[0]) / fine))
            if (from <= to) bits.fill(value, j * fineColumns + from, j * fineColumns + to + 1)
        }
    }
}

function freeBits(scene, frame) {
    const bits = new Uint8Array(frame.fineColumns * frame.fineRows)
    for (const polygon of [...scene.rooms, ...scene.passages]) fill(frame, bits, polygon, 1)
    for (const polygon of scene.solids) fill(frame, bits, polygon, 0)
    return bits
}

// Free room grown by some bits along both axes.
function grown(bits, { fineColumns, fineRows }, by) {
    const pass = (from, step, count, stride, lines) => {
        const to = new Uint8Array(from.length)
        for (let line = 0; line < lines; line++) {
            let last = -Infinity
            let next = 0
            for (let i = 0; i < count; i++) {
                while (next < count && next <= i + by) {
                    if (from[line * stride + next * step]) last = next
                    next++
                }
                to[line * stride + i * step] = last >= i - by ? 1 : 0
            }
        }
        return to
    }
    return pass(pass(bits, 1, fineColumns, fineColumns, fineRows), fineColumns, fineRows, 1, fineColumns)
}

/* --- shortest ways ----------------------------------------------------------------------------------------------- */

// Nodes in the order of their lengths; what is taken twice is passed over by the caller.
function queue() {
    const heap = []
    const swap = (i, j) => { [heap[i], heap[j]] = [heap[j], heap[i]] }
    return {
        push(length, node) {
            let i = heap.push([length, node]) - 1
            while (i > 0 && heap[(i - 1) >> 1][0] > heap[i][0]) {
                swap(i, (i - 1) >> 1)
                i = (i - 1) >> 1
            }
        },
        pop() {
            const top = heap[0]
            const last = heap.pop()
            if (heap.length === 0) return top
            heap[0] = last
            for (let i = 0; ;) {
                let least = i
                for (const child of [2 * i + 1, 2 * i + 2]) if (child < heap.length && heap[child][0] < heap[least][0]) least = child
                if (least === i) return top
                swap(i, least)
                i = least
            }
        },
        get empty() { return heap.length === 0 }
    }
}

// The bits along each way, as steps from its start, and its length.
const samples = 8 * parts
const waysOver = ({ fineColumns, columns }) => ways.map(([x, y]) => ({
    x, y, node: y * columns + x, length: Math.hypot(x, y) * cell,
    bits: Array.from({ length: samples + 1 }, (_, i) => Math.round(y * parts * i / samples) * fineColumns + Math.round(x * parts * i / samples))
}))

function shortest(bits, frame, starts, reach) {
    const { low, columns, rows, fineColumns } = frame
    const lengths = new Float64Array(columns * rows).fill(Infinity)
    const before = new Int32Array(columns * rows).fill(-1)
    const steps = waysOver(frame)
    const open = queue()
    for (const start of starts) {
        const [i, j] = [0, 1].map((axis) => Math.round((start[axis] - low[axis]) / cell))
        const off = distance(start, [low[0] + i * cell, low[1] + j * cell])
        if (off < lengths[j * columns + i]) open.push(lengths[j * columns + i] = off, j * columns + i)
    }
    while (!open.empty) {
        const [length, node] = open.pop()
        if (length > lengths[node] || length > reach) continue
        const [i, j] = [node % columns, Math.floor(node / columns)]
        const bit = j * parts * fineColumns + i * parts
        for (const way of steps) {
            if (i + way.x < 0 || i + way.x >= columns || j + way.y < 0 || j + way.y >= rows) continue
            if (length + way.length >= lengths[node + way.node] || !way.bits.every((step) => bits[bit + step])) continue
            lengths[node + way.node] = length + way.length
            before[node + way.node] = node
            open.push(length + way.length, node + way.node)
        }
    }
    return { lengths, before }
}

/* --- pulling ----------------------------------------------------------------------------------------------------- */

// Free every half millimetre, with free room on one side at least.
function looksFree(scene, p, q) {
    const length = distance(p, q)
    if (length < 1e-9) return true
    const [along, count] = [sub(q, p), Math.ceil(length / 0.0005)]
    const side = times(left(unit(along)), 1e-6)
    for (let i = 0; i < count; i++) {
        const at = add(p, times(along, (i + 0.5) / count))
        if (!isFree(scene, add(at, side)) && !isFree(scene, sub(at, side))) return false
    }
    return true
}

// Leaves out every bend that the straight line does without, farthest first.
function cutShort(scene, path) {
    const kept = [path[0]]
    for (let i = 0; i < path.length - 1;) {
        let next = path.length - 1
        while (next > i + 1 && !looksFree(scene, path[i], path[next])) next = i + Math.max(1, Math.floor((next - i) * 0.9))
        kept.push(path[next])
        i = next
    }
    return kept
}

function bendsToCorners(scene, path) {
    return path.map((bend, i) => {
        if (i === 0 || i === path.length - 1) return bend
        const near = scene.corners.filter((corner) => distance(corner, bend) < 3 * cell)
        const fits = near.filter((corner) => looksFree(scene, path[i - 1], corner) && looksFree(scene, corner, path[i + 1]))
        const over = (corner) => distance(path[i - 1], corner) + distance(corner, path[i + 1])
        return [bend, ...fits].reduce((best, corner) => (over(corner) < over(best) ? corner : best))
    })
}

const lengthOf = (path) => path.slice(1).reduce((sum, p, i) => sum + distance(path[i], p), 0)

function pulled(scene, path, starts) {
    let taut = path
    for (let round = 0; round < 4; round++) taut = bendsToCorners(scene, cutShort(scene, taut))
    const heads = starts.filter((start) => distance(start, taut[1]) < lengthOf(taut.slice(0, 2)) && looksFree(scene, start, taut[1]))
    const head = heads.reduce((best, start) => (distance(start, taut[1]) < distance(best, taut[1]) ? start : best), taut[0])
    return [head, ...taut.slice(1)]
}

// The node by which a point is reached soonest, of those within two cells that see it.
function nearestReached(scene, { low, columns, rows }, lengths, point, at) {
    const [i, j] = [0, 1].map((axis) => Math.round((point[axis] - low[axis]) / cell))
    const around = [-2, -1, 0, 1, 2].flatMap((y) => [-2, -1, 0, 1, 2].map((x) => [i + x, j + y]))
        .filter(([x, y]) => x >= 0 && y >= 0 && x < columns && y < rows).map(([x, y]) => y * columns + x)
    const over = (node) => lengths[node] + distance(at(node), point)
    return around.filter((node) => lengths[node] < Infinity && looksFree(scene, at(node), point)).sort((a, b) => over(a) - over(b))[0]
}

/* --- both bounds ------------------------------------------------------------------------------------------------- */

// For points: { above, below }, lengths that the shortest string from the source is not above and not below; undefined
// where the grid finds no way within the reach.
export function gridBounds(scene, source, points, reach) {
    const starts = source.polygon ? pointsAlong(source.polygon, fine) : source.starts
    const frame = windowOf(starts, reach + 0.1)
    const bits = freeBits(scene, frame)
    const real = shortest(bits, frame, starts, reach)
    const wide = shortest(grown(bits, frame, 2 * parts + 1), frame, starts, reach)
    const at = (node) => [frame.low[0] + node % frame.columns * cell, frame.low[1] + Math.floor(node / frame.columns) * cell]
    return points.map((point) => {
        const node = nearestReached(scene, frame, real.lengths, point, at)
        if (node === undefined) return undefined
        const path = [point]
        for (let step = node; step >= 0; step = real.before[step]) path.push(at(step))
        const last = path.at(-1)
        path[path.length - 1] = starts.reduce((best, p) => (distance(p, last) < distance(best, last) ? p : best))
        const taut = pulled(scene, path.reverse(), starts)
        if (!taut.slice(1).every((p, k) => looksFree(scene, taut[k], p))) return undefined
        return { above: lengthOf(taut), below: (wide.lengths[node] - distance(at(node), point)) / detour - pieces * Math.SQRT2 * cell }
    })
}
