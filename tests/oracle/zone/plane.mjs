// SPDX-License-Identifier: MIT
//
// Points, outlines and polygons of the zone oracle. A point is [x, y] in metres, a polygon a list of points. Curves
// become polygons of so many edges that none is farther from the curve than the sagitta asked for.

export const sub = (a, b) => [a[0] - b[0], a[1] - b[1]]
export const add = (a, b) => [a[0] + b[0], a[1] + b[1]]
export const times = (a, k) => [a[0] * k, a[1] * k]
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1]
export const cross = (a, b) => a[0] * b[1] - a[1] * b[0]
export const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1])
export const left = (a) => [-a[1], a[0]]
export const unit = (a) => times(a, 1 / Math.hypot(a[0], a[1]))
export const between = (a, b, t) => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]

export const edgesOf = (polygon) => polygon.map((a, i) => [a, polygon[(i + 1) % polygon.length]])

// Points of the arc round a centre from a by an angle (anticlockwise positive), without a, with its end.
export function arcPoints(centre, a, angle, sagitta) {
    const radius = distance(centre, a)
    const step = 2 * Math.acos(Math.max(0, 1 - sagitta / radius))
    const count = Math.max(1, Math.ceil(Math.abs(angle) / step))
    const start = Math.atan2(a[1] - centre[1], a[0] - centre[0])
    return Array.from({ length: count }, (_, i) => {
        const at = start + angle * (i + 1) / count
        return add(centre, [radius * Math.cos(at), radius * Math.sin(at)])
    })
}

function circleThrough(a, b, c) {
    const u = sub(b, a)
    const v = sub(c, a)
    const twice = 2 * cross(u, v)
    return add(a, [(v[1] * dot(u, u) - u[1] * dot(v, v)) / twice, (u[0] * dot(v, v) - v[0] * dot(u, u)) / twice])
}

// The angle from a over b to c round a centre.
function angleOver(centre, a, b, c) {
    const turn = (p) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
    const ahead = (angle) => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)
    const whole = ahead(turn(c) - turn(a))
    return ahead(turn(b) - turn(a)) < whole ? whole : whole - 2 * Math.PI
}

// The polygon of an outline as the job document writes it.
export function polygonOf({ outline_m: outline, centre_m: centre, radius_m: radius }, sagitta) {
    if (centre) return arcPoints(centre, add(centre, [radius, 0]), 2 * Math.PI, sagitta)
    const corner = (entry) => entry.to_m ?? entry
    return outline.flatMap((entry, i) => {
        if (!entry.to_m) return [entry]
        const before = corner(outline[(i + outline.length - 1) % outline.length])
        const middle = circleThrough(before, entry.through_m, entry.to_m)
        return arcPoints(middle, before, angleOver(middle, before, entry.through_m, entry.to_m), sagitta)
    })
}

// Whether a point lies in a polygon, by the parity of edges that a ray to the right crosses; on the edge either way.
export function isInside(polygon, [x, y]) {
    let inside = false
    for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
        const [ax, ay] = polygon[i]
        const [bx, by] = polygon[j]
        if ((ay > y) !== (by > y) && x < ax + (bx - ax) * (y - ay) / (by - ay)) inside = !inside
    }
    return inside
}

export function nearestOn([a, b], p) {
    const along = sub(b, a)
    const t = dot(sub(p, a), along) / dot(along, along)
    return between(a, b, Math.min(1, Math.max(0, t || 0)))
}

export const distanceToEdges = (edges, p) => Math.min(...edges.map((edge) => distance(nearestOn(edge, p), p)))

// Where along pq (0 to 1) it meets edges; of an edge that lies along it, where both ends are. No order.
export function meetings(p, q, edges) {
    const found = []
    const [dx, dy] = sub(q, p)
    const keep = (t) => { if (t > 0 && t < 1) found.push(t) }
    for (const [a, b] of edges) {
        const [ex, ey, fx, fy] = [b[0] - a[0], b[1] - a[1], a[0] - p[0], a[1] - p[1]]
        const turn = dx * ey - dy * ex
        if (Math.abs(turn) < 1e-14) {
            const off = Math.abs(fx * dy - fy * dx) / Math.hypot(dx, dy)
            if (off < 1e-9) for (const end of [a, b]) keep(dot(sub(end, p), [dx, dy]) / (dx * dx + dy * dy))
            continue
        }
        const u = (fx * dy - fy * dx) / turn
        if (u > -1e-9 && u < 1 + 1e-9) keep((fx * ey - fy * ex) / turn)
    }
    return found
}

// Points along a closed polygon, at most a step apart, its corners among them.
export const pointsAlong = (polygon, step) => edgesOf(polygon).flatMap(([a, b]) => {
    const count = Math.max(1, Math.ceil(distance(a, b) / step))
    return Array.from({ length: count }, (_, i) => between(a, b, i / count))
})

export const areaOf = (polygon) => edgesOf(polygon).reduce((sum, [a, b]) => sum + cross(a, b) / 2, 0)
