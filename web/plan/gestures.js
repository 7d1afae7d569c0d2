// SPDX-License-Identifier: MIT
//
// Fingers, mouse and wheel on a drawing. One finger on a thing drags it, on bare floor it moves the view; two move and
// zoom; the wheel zooms where it points.
//
//     attachGestures(element, () => ({ view, setView, grab, tap }))      gives the function that takes it off again
//
// Handlers are asked for anew each time. grab(place, event) -> { move(place, event), end(event) } or null; tap(place, event).
// Places are in pixels of the element.

import { panned, pinched, zoomed } from './view.js'

const SLACK = { mouse: 3, pen: 5, touch: 8 }

export function attachGestures(element, handlers) {
    const fingers = new Map()
    let press = null // { id, at, drag, begun }

    const placeOf = (event) => {
        const { left, top } = element.getBoundingClientRect()
        return [event.clientX - left, event.clientY - top]
    }

    function begin(event) {
        press.begun = true
        press.drag = press.second ? null : handlers().grab(press.at, event)
    }

    function finish(event) {
        press?.drag?.end(event)
        press = null
    }

    function down(event) {
        if (event.button > 0) return
        element.setPointerCapture(event.pointerId)
        fingers.set(event.pointerId, placeOf(event))
        if (fingers.size === 1) press = { id: event.pointerId, at: placeOf(event), last: placeOf(event), begun: false, drag: null }
        else finish(event)
    }

    function pinch(event, before, now) {
        const [other] = [...fingers].filter(([id]) => id !== event.pointerId).map(([, at]) => at)
        const { view, setView } = handlers()
        setView(pinched(view, [before, other], [now, other]))
    }

    function move(event) {
        const before = fingers.get(event.pointerId)
        if (!before) return
        const now = placeOf(event)
        fingers.set(event.pointerId, now)
        if (fingers.size === 2) return pinch(event, before, now)
        if (!press) return
        if (!press.begun && Math.hypot(now[0] - press.at[0], now[1] - press.at[1]) > (SLACK[event.pointerType] ?? 5)) begin(event)
        if (!press.begun) return
        const { view, setView } = handlers()
        if (press.drag) press.drag.move(now, event)
        else setView(panned(view, [now[0] - before[0], now[1] - before[1]]))
    }

    function up(event) {
        if (!fingers.delete(event.pointerId) || !press) return
        if (!press.begun && event.type === 'pointerup') handlers().tap(press.at, event)
        finish(event)
    }

    function wheel(event) {
        event.preventDefault()
        const { view, setView } = handlers()
        setView(zoomed(view, placeOf(event), Math.exp(-event.deltaY * (event.ctrlKey ? 0.01 : 0.0015))))
    }

    const all = [['pointerdown', down], ['pointermove', move], ['pointerup', up], ['pointercancel', up], ['wheel', wheel]]
    all.forEach(([name, act]) => element.addEventListener(name, act, { passive: false }))
    return () => all.forEach(([name, act]) => element.removeEventListener(name, act))
}
