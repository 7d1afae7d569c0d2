// SPDX-License-Identifier: MIT
//
// The drawing that is edited: layers, what can be chosen with Tab, handles of what is chosen, and the pointer.
// It knows the plan and the view; what a drag does to the document is given from outside.

import { html, useEffect, useLayoutEffect, useMemo, useRef } from '../html.js'
import { attachGestures } from './gestures.js'
import { gapsOf } from './gaps.js'
import { boundsOfItems, handlesOf, hitItem } from './items.js'
import { Gap, Grid, Handle, Hatches, PointMark, PointNames, Rooms, Scale, SlopeHeights, Thing, ThingName, WallLines, Way, ZoneNumbers, Zones } from './layers.js'
import { shapePath } from './paths.js'
import { itemWords, wayLabel, ways, zoneOf } from './say.js'
import { centreOf, distanceToEdge, placesOf } from './shapes.js'
import { fitted, toMetres, toScreen } from './view.js'

const REACH = { mouse: 12, pen: 16, touch: 24 }
const TURN_OFF = 34
const WALL_REACH = 18
const NAME_PX = 36 // from a point to the middle of its name

const EMPTY = { low: [0, 0], high: [3, 2.4] }
const ROUND_IT_M = 0.25 // walls and recesses

export function fitTo(items, width, height) {
    const { low, high } = boundsOfItems(items) ?? EMPTY
    const wider = { low: low.map((value) => value - ROUND_IT_M), high: high.map((value) => value + ROUND_IT_M) }
    return { ...fitted(wider, width, height, Math.min(40, width / 24)), isFitted: true }
}

// A view that follows the size of the element until somebody moves or zooms it.
function useSized(element, view, setView, items) {
    const now = useRef(null)
    now.current = { view, setView, items }
    useLayoutEffect(() => {
        const watcher = new ResizeObserver(([{ contentRect: { width, height } }]) => {
            if (!width || !height) return
            const { view: old, setView: set, items: all } = now.current
            set(!old || old.isFitted ? fitTo(all, width, height) : { ...old, width, height })
        })
        watcher.observe(element.current)
        return () => watcher.disconnect()
    }, [])
}

const nearestHandle = (view, handles, at, reach) => {
    const far = (handle) => Math.hypot(...toScreen(view, handle.at).map((value, axis) => value - at[axis]))
    return handles.map((handle) => ({ handle, far: far(handle) })).filter(({ far: off }) => off <= reach).sort((a, b) => a.far - b.far)[0]?.handle
}

// What a press means: { item, handle } of a handle of the chosen item, { item } of what lies there, null of bare floor.
function pressed({ view, items, chosen }, at, event) {
    const reach = REACH[event.pointerType] ?? 14
    const handles = chosen ? handlesOf(chosen, TURN_OFF / view.scale) : []
    const handle = nearestHandle(view, handles, at, reach)
    if (handle) return { item: chosen, handle: handle.name }
    const item = hitItem(items, toMetres(view, at), reach / view.scale)
    return item && { item }
}

const sayItem = (item, finding, faults) => [itemWords(item), finding && `${zoneOf(finding)}, ${finding.verdict}`, faults?.length && `problem: ${faults[0].problem}`].filter(Boolean).join(', ')

function Fault({ view, item }) {
    const [x, y] = toScreen(view, centreOf(item.shape))
    return html`<g class="plan-fault" aria-hidden="true"><circle cx=${x} cy=${y} r="9" /><text x=${x} y=${y + 5}>!</text></g>`
}

function Focusable({ item, chosen, label, onKey, choose, children }) {
    return html`<g class=${`plan-item plan-item-${item.sort} ${chosen ? 'plan-chosen' : ''}`} role="button" tabindex="0" data-key=${item.key}
        aria-label=${label} aria-pressed=${chosen ? 'true' : 'false'} onKeyDown=${(event) => onKey(event, item)} onFocus=${(event) => event.currentTarget.matches(':focus-visible') && choose(item.key)}>${children}</g>`
}

// The last bit of a room that a ring of focus can be drawn round.
const RoomEdge = ({ view, item }) => html`<path d=${shapePath((spot) => toScreen(view, spot), view.scale, item.shape)} class="plan-room-edge" />`

function Sheet({ view, items, shown, findings, faults, chosen, north, choose, onKey, draggedKey, ranges }) {
    const byId = new Map(findings.map((finding) => [finding.id, finding]))
    const can = items.filter(({ shape }) => shape)
    const sort = (wanted) => can.filter((item) => item.sort === wanted)
    const roomPlaces = sort('room').map(({ shape }) => placesOf(shape))
    const focusable = (item, finding, children) => html`<${Focusable} key=${item.key} ...${{ item, choose, onKey, children }} chosen=${chosen?.key === item.key} label=${sayItem(item, finding, faults.get(item.key))} />`
    const shownWays = findings.flatMap((finding) => ways(finding, chosen?.key === `point:${finding.id}`).map((way) => ({ ...way, id: finding.id })))
    return html`
        <${Grid} view=${view} /><${Rooms} view=${view} rooms=${sort('room')} things=${sort('thing')} /><${Zones} ...${{ view, shown }} />
        ${sort('room').map((item) => focusable(item, undefined, html`<${RoomEdge} ...${{ view, item }} />`))}<${WallLines} view=${view} rooms=${sort('room')} />
        ${sort('thing').map((item) => focusable(item, undefined, html`<${Thing} ...${{ view, item }} rooms=${roomPlaces} /><${ThingName} ...${{ view, item }} />`))}
        <${SlopeHeights} ...${{ view }} items=${sort('thing')} />
        <${ZoneNumbers} ...${{ view, shown, ranges }} clear=${[...sort('point').flatMap(({ shape }) => [shape.at, [shape.at[0] + NAME_PX / view.scale, shape.at[1]]]), ...shownWays.flatMap((way) => [...way.places, wayLabel(way).at])]} />
        ${shownWays.map((way, i) => html`<${Way} key=${`${way.id} ${i}`} ...${{ view, way }} />`)}
        ${sort('point').map((item) => focusable(item, byId.get(item.owner.id), html`<${PointMark} ...${{ view, item }} verdict=${byId.get(item.owner.id)?.verdict} />`))}
        <${PointNames} ...${{ view }} items=${sort('point')} />
        ${can.filter(({ key }) => faults.has(key)).map((item) => html`<${Fault} key=${item.key} ...${{ view, item }} />`)}
        ${chosen?.shape && chosen.sort !== 'room' && chosen.shape.form !== 'slope' && gapsOf(chosen.shape, sort('room').map(({ shape }) => shape)).map((gap, i) => html`<${Gap} key=${i} ...${{ view, gap }} />`)}
        ${chosen?.shape && draggedKey === null && handlesOf(chosen, TURN_OFF / view.scale).map((handle) => html`<${Handle} key=${handle.name} ...${{ view, handle }} />`)}
        <${Scale} view=${view} north=${north} />`
}

// grab({ item, handle }, place in metres) -> drag, as in gestures.js but with places in metres.
export function Drawing({ view, setView, items, chosen, choose, grab, label, ...rest }) {
    const svg = useRef(null)
    useSized(svg, view, setView, items)
    const now = useRef(null)
    now.current = { view, items, chosen }
    const inMetres = (drag) => drag && { move: (at, event) => drag.move(toMetres(now.current.view, at), event), end: drag.end }
    const handlers = useRef(null)
    handlers.current = {
        view,
        setView: (next) => setView({ ...next, isFitted: false }),
        grab: (at, event) => {
            const what = pressed(now.current, at, event)
            return what && inMetres(grab(what, toMetres(now.current.view, at)))
        },
        tap: (at, event) => {
            const what = pressed(now.current, at, event)
            const room = !what && items.find(({ sort, shape }) => sort === 'room' && shape && distanceToEdge(toMetres(view, at), shape) * view.scale <= WALL_REACH)
            const key = what?.item.key ?? room?.key ?? null
            choose(key, key !== null && key === chosen?.key)
        }
    }
    useEffect(() => attachGestures(svg.current, () => handlers.current), [])
    const known = useMemo(() => html`<${Hatches} />`, [])
    return html`<svg class="plan-drawing" ref=${svg} role="group" aria-label=${label}>${known}
        ${view && html`<${Sheet} ...${{ view, items, chosen, choose }} ...${rest} />`}</svg>`
}
