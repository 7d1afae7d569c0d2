// SPDX-License-Identifier: MIT
//
// What the plan editor does to the document: put in, change, move, turn, remove, by pointer and by key. Each is one step
// back, with a label that says what it was; a drag and a held arrow are one step too.

import { useEffect, useRef } from '../html.js'
import { addPoint, freeId, idFromName, placeOf, pointsAt, withPoint } from '../state/document.js'
import { edit, editLive, endLive, opened } from '../state/opened.js'
import { markUsual } from './checks.js'
import { dragged, targetsFor } from './drag.js'
import { addThing, changeItem, companionsOf, itemOf, itemsOf, movedItem, moveItem, removeItem, roomsOf, turnOf, withPlan } from './items.js'
import { itemWords } from './say.js'
import { boundsOf, placesOf, shapeOf, turned } from './shapes.js'
import { placedPoint, placedThing } from './spots.js'
import { GUESS_M, hasUsualSize, settled, thingOf, usualHeight } from './things.js'

const SNAP_PX = 11
const SNAP_MOST_M = 0.12
const STEP_M = 0.01
const FAR_STEP_M = 0.1

// Everything that changes the document; each one undo step.
export function editsOf({ id, place, job, say }) {
    const where = place.name || place.id
    const change = (item, label, how) => {
        edit(`${label} of ${item.label} (${where})`, (now) => changeItem(now, id, item.key, how))
        const after = itemOf(itemsOf(opened.get().document, id), item.key)
        if (after) say(itemWords(after))
    }
    const planNow = () => placeOf(opened.get().document, id).plan ?? {}
    const usualSpot = (kind) => {
        const [x, y] = placedPoint(kind, planNow(), pointsAt(opened.get().document, id))
        return [x, y, usualHeight(kind, planNow().height_m)]
    }
    return {
        change,
        changePlan: (label, how) => edit(`${label} (${where})`, (now) => withPlan(now, id, how)),
        put(kind) {
            const features = planNow().features ?? []
            const feature = { ...placedThing(kind, planNow()), id: idFromName(features, kind, kind) }
            edit(`Put in ${thingOf(kind).label.toLowerCase()} (${where})`, (now) => addThing(now, id, feature))
            if (hasUsualSize(kind)) markUsual(job, id, feature.id)
            say(`${thingOf(kind).label} put in`)
            return `thing:${features.length}`
        },
        putPoint(kind) {
            const all = opened.get().document.points
            const at = usualSpot(kind)
            const point = { id: freeId(all, 'P'), place: id, name: '', kind, at_m: at, about: true, tolerance_m: GUESS_M }
            edit(`Add ${point.id} (${where})`, (now) => addPoint(now, point))
            return `point:${point.id}`
        },
        placePoint(point) {
            const [x, y, z] = usualSpot(point.kind)
            edit(`Put ${point.name || point.id} on the plan (${where})`, (now) => withPoint(now, point.id, (old) => ({ ...old, at_m: [x, y, old.height_m ?? z], about: true, tolerance_m: GUESS_M })))
            return `point:${point.id}`
        },
        addRoom(outline_m) {
            edit(`Another room (${where})`, (now) => withPlan(now, id, (plan) => {
                const { outline_m: first, ...rest } = plan
                const rooms = Array.isArray(plan.rooms) ? plan.rooms : first ? [{ outline_m: first }] : []
                return { ...rest, rooms: [...rooms, { outline_m: besides(rooms, outline_m) }] }
            }))
        },
        remove(item) {
            edit(item.sort === 'point' ? `Take ${item.label} off the plan (${where})` : `Remove ${item.label} (${where})`, (now) => removeItem(now, id, item.key))
            say(`${item.label} removed`)
        },
        turn(item) {
            const companions = companionsOf(itemsOf(opened.get().document, id), item)
            edit(`Turn of ${item.label} (${where})`, (now) => moveItem(now, id, item, companions, turned(item.owner, 90), 90))
            say(`${item.label} turned by a quarter`)
        }
    }
}

// A new room stands right of the others, a wall between.
function besides(rooms, outline) {
    const bounds = boundsOf(rooms.map(shapeOf).filter(Boolean).flatMap(placesOf))
    if (!bounds) return outline
    const own = boundsOf(outline)
    const [dx, dy] = [bounds.high[0] + 0.1 - own.low[0], bounds.low[1] - own.low[1]]
    return outline.map(([x, y]) => [Math.round((x + dx) * 1e3) / 1e3, Math.round((y + dy) * 1e3) / 1e3])
}

// A drag from where it begins: shown and judged at each step, one undo step in the end.
export function dragOf({ id, item, items, handle, from, view, place, setLive, say, choose }) {
    const began = opened.get().document
    const targets = targetsFor(place.plan, item)
    const tolerance = Math.min(SNAP_PX / view.scale, SNAP_MOST_M)
    const companions = !handle || handle === 'turn' ? companionsOf(items, item) : []
    setLive(item.key)
    if (!handle) choose(item.key)
    return {
        move(to, event) {
            const owner = settled(dragged({ item, handle, from, to, targets, tolerance: event.altKey ? 0 : tolerance }))
            editLive((now) => moveItem(now, id, item, companions, owner, handle ? turnOf(item, owner) : 0))
        },
        end() {
            const words = handle ? 'Change' : 'Move'
            endLive(`${words} ${item.label} (${place.name || place.id})`, began)
            const after = itemOf(itemsOf(opened.get().document, id), item.key)
            if (after && opened.get().document !== began) say(itemWords(after))
            setLive(null)
        }
    }
}

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }

// Keys on what has the focus. Arrows held down are one undo step, which ends when the key is let go.
export function useKeys({ id, place, items, edits, choose, removeNow, openNumbers, zoom, setLive, say }) {
    const began = useRef(null)
    const end = () => {
        if (!began.current) return
        const { document, item } = began.current
        began.current = null
        endLive(`Move ${item.label} (${place.name || place.id})`, document)
        const after = itemOf(itemsOf(opened.get().document, id), item.key)
        if (after) say(itemWords(after))
        setLive(null)
    }
    useEffect(() => {
        const up = (event) => ARROWS[event.key] && end()
        addEventListener('keyup', up)
        addEventListener('blur', end)
        return () => { removeEventListener('keyup', up); removeEventListener('blur', end); end() }
    }, [])
    const nudge = (item, [x, y], step) => {
        if (item.sort === 'room') return say('Walls are moved by their numbers: Enter')
        if (began.current && began.current.item.key !== item.key) end()
        if (!began.current) {
            began.current = { document: opened.get().document, item, companions: companionsOf(items, item), dx: 0, dy: 0 }
            setLive(item.key)
        }
        const held = began.current
        held.dx += x * step
        held.dy += y * step
        editLive((now) => moveItem(now, id, held.item, held.companions, settled(movedItem(held.item, held.dx, held.dy))))
    }
    const act = (event, item) => {
        if (ARROWS[event.key]) return nudge(item, ARROWS[event.key], event.shiftKey ? FAR_STEP_M : STEP_M)
        if (event.ctrlKey || event.metaKey) return false
        if (event.key === 'Enter' || event.key === ' ') return openNumbers(item.key)
        if (event.key === 'Delete' || event.key === 'Backspace') return removeNow(item)
        if (event.key === '+' || event.key === '=') return zoom(1.25)
        if (event.key === '-') return zoom(0.8)
        if (event.key === 'Escape') return choose(null)
        if (event.key === 'r' && item.sort === 'thing') return edits.turn(item)
        return false
    }
    return (event, item) => {
        if (act(event, item) !== false) {
            event.preventDefault()
            event.stopPropagation()
        }
    }
}
