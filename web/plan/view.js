// SPDX-License-Identifier: MIT
//
// From metres to the screen and back. A view is { width, height } in pixels, the metres { x, y } at its middle and
// `scale`, pixels a metre; y goes up in metres and down on the screen. Pure.

const LEAST = 2
const MOST = 1500

const clamped = (scale) => Math.max(LEAST, Math.min(MOST, scale))

export const toScreen = (view, [x, y]) => [view.width / 2 + (x - view.x) * view.scale, view.height / 2 - (y - view.y) * view.scale]
export const toMetres = (view, [x, y]) => [view.x + (x - view.width / 2) / view.scale, view.y - (y - view.height / 2) / view.scale]

// All of the bounds, with a margin in pixels.
export function fitted({ low, high }, width, height, margin = 48) {
    const across = Math.max(high[0] - low[0], 0.5)
    const up = Math.max(high[1] - low[1], 0.5)
    const scale = clamped(Math.min(Math.max(width - 2 * margin, 8) / across, Math.max(height - 2 * margin, 8) / up))
    return { width, height, x: (low[0] + high[0]) / 2, y: (low[1] + high[1]) / 2, scale }
}

export const panned = (view, [dx, dy]) => ({ ...view, x: view.x - dx / view.scale, y: view.y + dy / view.scale })

// What lies under a place on the screen stays there.
export function zoomed(view, at, factor) {
    const scale = clamped(view.scale * factor)
    const [x, y] = toMetres(view, at)
    return { ...view, scale, x: x - (at[0] - view.width / 2) / scale, y: y + (at[1] - view.height / 2) / scale }
}

// Two fingers from two places to two others.
export function pinched(view, [a, b], [c, d]) {
    const spread = (p, q) => Math.max(1, Math.hypot(p[0] - q[0], p[1] - q[1]))
    const mid = (p, q) => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]
    const [from, to] = [mid(a, b), mid(c, d)]
    return zoomed(panned(view, [to[0] - from[0], to[1] - from[1]]), to, spread(c, d) / spread(a, b))
}

const STEPS = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50]
const stepFor = (scale, pixels) => STEPS.find((step) => step * scale >= pixels) ?? 50

// Lines of the grid that lie in the view: { step, xs, ys }, metres.
export function gridOf(view) {
    const step = stepFor(view.scale, 22)
    const [left, top] = toMetres(view, [0, 0])
    const [right, bottom] = toMetres(view, [view.width, view.height])
    const lines = (from, to) => Array.from({ length: Math.max(0, Math.floor(to / step) - Math.ceil(from / step) + 1) }, (_, i) => (Math.ceil(from / step) + i) * step)
    return { step, xs: lines(left, right), ys: lines(bottom, top) }
}

// The length of the scale bar in metres: a round one, about 100 pixels.
export const barOf = (view) => [...STEPS].reverse().find((step) => step * view.scale <= 130) ?? 0.05
