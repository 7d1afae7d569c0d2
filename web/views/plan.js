// SPDX-License-Identifier: MIT
//
// The plan of a place: what stands where, zones redrawn while it is moved, and what that means for each point. By finger,
// mouse, key or number. Geometry for editing is in plan/; what zones are is the core's.

import { core } from '../core/core.js'
import { html, useEffect, useMemo, useRef, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { Icon } from '../parts/icons.js'
import { Begin } from '../plan/begin.js'
import { checks, isUsual, markMeasured, markUsual } from '../plan/checks.js'
import { dragged, targetsFor } from '../plan/drag.js'
import { Drawing, fitTo } from '../plan/drawing.js'
import { addThing, changeItem, companionsOf, itemOf, itemsOf, movedItem, moveItem, removeItem, roomsOf, turnOf, withPlan } from '../plan/items.js'
import { placeAnswer, problemsByItem, zonesOf } from '../plan/judged.js'
import { Answers, Things, ToMeasure, toMeasure } from '../plan/lists.js'
import { Palette } from '../plan/palette.js'
import { Panel } from '../plan/panel.js'
import { itemWords, sentence, zoneChanges } from '../plan/say.js'
import { boundsOf, placesOf, shapeOf, turned } from '../plan/shapes.js'
import { newThing, thingOf, unmeasuredHeights, usualHeight } from '../plan/things.js'
import { zoomed } from '../plan/view.js'
import { shownZones } from '../plan/zones.js'
import { useActions } from '../state/actions.js'
import { addPoint, freeId, idFromName, placeOf, pointsAt, withKey, withPoint } from '../state/document.js'
import { placeText } from '../state/judge.js'
import { addressOf } from '../state/route.js'
import { edit, editLive, endLive, session } from '../state/session.js'
import { useStore } from '../state/store.js'

const SNAP_PX = 11
const SNAP_MOST_M = 0.12
const STEP_M = 0.01
const FAR_STEP_M = 0.1

// --- the core's drawing ---------------------------------------------------------------------------------------------

function save(name, text) {
    const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }))
    const link = Object.assign(document.createElement('a'), { href: address, download: name })
    link.click()
    setTimeout(() => URL.revokeObjectURL(address), 1000)
}

function Finished({ document: job, place, close }) {
    const picture = useMemo(() => core.drawPlan(placeText(job, place.id), place.id), [])
    return html`<${Dialog} title="Drawing" close=${close}>
        ${picture ? html`<div class="plan-finished" tabindex="0" dangerouslySetInnerHTML=${{ __html: picture }} />
            <div class="row"><button class="primary" onClick=${() => save(`plan-${place.id}.svg`, picture)}><${Icon} name="save" />Save as SVG</button></div>`
            : html`<p>There is nothing to draw yet: the plan needs a closed room and what its zones are measured from.</p>`}
    <//>`
}

// --- what is known of the plan --------------------------------------------------------------------------------------

function useAnswer(document, id, live) {
    const rows = useStore(session, (state) => state.rows)
    const last = useRef(null)
    const answer = useMemo(() => placeAnswer(document, id, live, last.current), [document, rows, live])
    last.current = answer
    return answer
}

// Zones do not depend on points: dragging one leaves them as they are.
function useZones(document, place) {
    const zones = useMemo(() => zonesOf(document, place.id), [place, document.rules, document.date])
    return { zones, shown: useMemo(() => shownZones(zones), [zones]) }
}

// What is said aloud after a change: what moved where, and which points are in another zone now.
function useSaying(findings, live) {
    const [words, setWords] = useState('')
    const before = useRef(findings)
    const about = useRef('')
    useEffect(() => {
        if (live) return
        const changes = zoneChanges(before.current, findings)
        if (about.current || changes) setWords([about.current, changes].filter(Boolean).join('. '))
        before.current = findings
        about.current = ''
    }, [findings, live])
    return [words, (text) => { about.current = text }]
}

// --- editing --------------------------------------------------------------------------------------------------------

// Everything that changes the document; each one undo step.
function editsOf({ id, place, job, say }) {
    const where = place.name || place.id
    const change = (item, label, how) => {
        edit(`${label} of ${item.label} (${where})`, (now) => changeItem(now, id, item.key, how))
        const after = itemOf(itemsOf(session.get().document, id), item.key)
        if (after) say(itemWords(after))
    }
    const middle = () => {
        const places = roomsOf(placeOf(session.get().document, id).plan ?? {}).map(shapeOf).filter(Boolean).flatMap(placesOf)
        const { low, high } = boundsOf(places) ?? { low: [0, 0], high: [2, 2] }
        return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]
    }
    return {
        change,
        changePlan: (label, how) => edit(`${label} (${where})`, (now) => withPlan(now, id, how)),
        put(kind) {
            const features = placeOf(session.get().document, id).plan?.features ?? []
            const feature = { ...newThing(kind, middle()), id: idFromName(features, kind, kind) }
            edit(`Put in ${thingOf(kind).label.toLowerCase()} (${where})`, (now) => addThing(now, id, feature))
            markUsual(job, id, feature.id)
            say(`${thingOf(kind).label} put in the middle`)
            return `thing:${features.length}`
        },
        putPoint(kind) {
            const all = session.get().document.points
            const at = usualPlace(kind, middle(), place)
            const point = { id: freeId(all, 'P'), place: id, name: '', kind, at_m: at, about: true }
            edit(`Add ${point.id} (${where})`, (now) => addPoint(now, point))
            return `point:${point.id}`
        },
        placePoint(point) {
            const [x, y, z] = usualPlace(point.kind, middle(), place)
            edit(`Put ${point.name || point.id} on the plan (${where})`, (now) => withPoint(now, point.id, (old) => ({ ...old, at_m: [x, y, old.height_m ?? z], about: true })))
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
            const companions = companionsOf(itemsOf(session.get().document, id), item)
            edit(`Turn of ${item.label} (${where})`, (now) => moveItem(now, id, item, companions, turned(item.owner, 90), 90))
            say(`${item.label} turned by a quarter`)
        }
    }
}

const usualPlace = (kind, [x, y], place) => [...[x, y].map((value) => Math.round(value * 20) / 20), usualHeight(kind, place.plan?.height_m)]

// A new room stands right of the others, a wall between.
function besides(rooms, outline) {
    const bounds = boundsOf(rooms.map(shapeOf).filter(Boolean).flatMap(placesOf))
    if (!bounds) return outline
    const own = boundsOf(outline)
    const [dx, dy] = [bounds.high[0] + 0.1 - own.low[0], bounds.low[1] - own.low[1]]
    return outline.map(([x, y]) => [Math.round((x + dx) * 1e3) / 1e3, Math.round((y + dy) * 1e3) / 1e3])
}

// A drag from where it begins: shown and judged at each step, one undo step in the end.
function dragOf({ id, item, items, handle, from, view, place, setLive, say, choose }) {
    const began = session.get().document
    const targets = targetsFor(place.plan, item)
    const tolerance = Math.min(SNAP_PX / view.scale, SNAP_MOST_M)
    const companions = !handle || handle === 'turn' ? companionsOf(items, item) : []
    setLive(item.key)
    if (!handle) choose(item.key)
    return {
        move(to, event) {
            const owner = dragged({ item, handle, from, to, targets, tolerance: event.altKey ? 0 : tolerance })
            editLive((now) => moveItem(now, id, item, companions, owner, handle ? turnOf(item, owner) : 0))
        },
        end() {
            const words = handle ? 'Change' : 'Move'
            endLive(`${words} ${item.label} (${place.name || place.id})`, began)
            const after = itemOf(itemsOf(session.get().document, id), item.key)
            if (after && session.get().document !== began) say(itemWords(after))
            setLive(null)
        }
    }
}

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }

// Keys on what has the focus. Arrows held down are one undo step, which ends when the key is let go.
function useKeys({ id, place, items, edits, choose, openNumbers, zoom, setLive, say }) {
    const began = useRef(null)
    const end = () => {
        if (!began.current) return
        const { document, item } = began.current
        began.current = null
        endLive(`Move ${item.label} (${place.name || place.id})`, document)
        const after = itemOf(itemsOf(session.get().document, id), item.key)
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
            began.current = { document: session.get().document, item, companions: companionsOf(items, item), dx: 0, dy: 0 }
            setLive(item.key)
        }
        const held = began.current
        held.dx += x * step
        held.dy += y * step
        editLive((now) => moveItem(now, id, held.item, held.companions, movedItem(held.item, held.dx, held.dy)))
    }
    const act = (event, item) => {
        if (ARROWS[event.key]) return nudge(item, ARROWS[event.key], event.shiftKey ? FAR_STEP_M : STEP_M)
        if (event.ctrlKey || event.metaKey) return false
        if (event.key === 'Enter' || event.key === ' ') return openNumbers(item.key)
        if (event.key === 'Delete' || event.key === 'Backspace') return remove(item)
        if (event.key === '+' || event.key === '=') return zoom(1.25)
        if (event.key === '-') return zoom(0.8)
        if (event.key === 'Escape') return choose(null)
        if (event.key === 'r' && item.sort === 'thing') return edits.turn(item)
        return false
    }
    const remove = (item) => {
        edits.remove(item)
        choose(null)
    }
    return (event, item) => {
        if (act(event, item) !== false) {
            event.preventDefault()
            event.stopPropagation()
        }
    }
}

// --- the editor -----------------------------------------------------------------------------------------------------

function Tools({ openPalette, openDrawing, zoom, fit }) {
    return html`<div class="plan-tools no-print" role="toolbar" aria-label="Plan">
        <button class="primary" onClick=${openPalette}><${Icon} name="add" />Put in</button>
        <button aria-label="Drawing" title="The finished drawing (D)" onClick=${openDrawing}><${Icon} name="plan" /><span class="plan-word">Drawing</span></button>
        <span class="plan-tools-view"><button aria-label="Further away" title="Further away (-)" onClick=${() => zoom(0.8)}>−</button><button aria-label="Nearer" title="Nearer (+)" onClick=${() => zoom(1.25)}><${Icon} name="add" /></button>
        <button title="All of it (F)" onClick=${fit}>All</button></span></div>`
}

// Why there are no zones, or what is wrong, at the foot of the drawing.
function FaultLine({ faults, items, choose }) {
    const [[key, [first]] = ['', []]] = [...faults]
    if (!first) return null
    const item = itemOf(items, key)
    return html`<p class="plan-fault-line" role="status"><strong>${item ? `${item.label}: ${first.problem}` : sentence(first.problem)}.</strong> ${first.remedy}
        ${item && html` <button class="plain" onClick=${() => choose(key, true)}>Show</button>`}</p>`
}

function Beside({ items, findings, faults, chosen, choose, job, measure, zones }) {
    return html`<div class="plan-beside stack">
        ${!zones && !faults.size && html`<p class="quiet">No zones: the job's rules have none for this place, or the plan is not whole.</p>`}
        <section class="stack-small" aria-label="Points"><h2>Points</h2><${Answers} ...${{ items, findings, choose, chosen, job }} /></section>
        <${ToMeasure} list=${measure} choose=${choose} />
        <section class="stack-small"><h2>What stands here</h2><${Things} ...${{ items, faults, choose, chosen }} /></section></div>`
}

function useView(items) {
    const [view, setView] = useState(null)
    const latest = useRef(items)
    latest.current = items
    return {
        view,
        setView,
        zoom: (factor) => setView((old) => old && { ...zoomed(old, [old.width / 2, old.height / 2], factor), isFitted: false }),
        fit: () => setTimeout(() => setView((old) => old && fitTo(latest.current, old.width, old.height)))
    }
}

function Editor({ document, place, job }) {
    const { id } = place
    const items = useMemo(() => itemsOf(document, id), [document])
    const [chosenKey, setChosen] = useState(null)
    const [isOpen, setOpen] = useState(false)
    const [live, setLive] = useState(null)
    const [dialog, setDialog] = useState('')
    const known = useStore(checks)
    const desk = useRef(null)
    const { view, setView, zoom, fit } = useView(items)
    const { findings, problems } = useAnswer(document, id, live !== null)
    const { zones, shown } = useZones(document, place)
    const [words, say] = useSaying(findings, live !== null)
    const faults = useMemo(() => problemsByItem(problems, pointsAt(document, id)), [problems])
    const chosen = chosenKey && itemOf(items, chosenKey)
    const ranges = !items.some(({ sort, owner }) => sort === 'thing' && unmeasuredHeights(owner).length)
    const usualOf = (item) => item.sort === 'thing' && isUsual(known, job, id, item.owner.id)
    const choose = (key, numbers) => {
        setChosen(key)
        setOpen(Boolean(key) && numbers === true)
    }
    const edits = editsOf({ id, place, job, say })
    const openNumbers = (key) => {
        choose(key, true)
        setTimeout(() => globalThis.document.querySelector('.plan-panel-body :is(input, select)')?.focus())
    }
    const onKey = useKeys({ id, place, items, edits, choose, openNumbers, zoom, setLive, say })
    const grab = (what, from) => (what.item.sort === 'room' && !what.handle ? null : dragOf({ id, items, ...what, from, view, place, setLive, say, choose: setChosen }))
    const put = (act) => (what) => {
        setDialog('')
        choose(act(what), false)
    }
    useActions([
        { name: 'plan-add', label: 'Put in', key: 'a', effect: () => setDialog('palette') },
        { name: 'plan-drawing', label: 'Drawing', key: 'd', effect: () => setDialog('drawing') },
        { name: 'plan-fit', label: 'All of the plan', key: 'f', effect: fit },
        { name: 'plan-nearer', label: 'Nearer', key: '+', effect: () => zoom(1.25) },
        { name: 'plan-further', label: 'Further away', key: '-', effect: () => zoom(0.8) }
    ])
    useEffect(() => {
        if (isOpen && matchMedia('(max-width: 62rem)').matches) desk.current.scrollIntoView({ block: 'start' })
    }, [isOpen])
    const unplaced = items.filter(({ sort, shape }) => sort === 'point' && !shape).map(({ owner }) => owner)
    return html`<div class="plan">
        <div class="spread plan-head"><h1>Plan of ${place.name || place.id}</h1><a class="button" aria-label="The place" href=${addressOf(job, 'place', id)}><${Icon} name="back" /><span class="plan-word">The place</span></a></div>
        <div class="plan-desk" ref=${desk}>
            <${Drawing} ...${{ view, setView, items, shown, findings, faults, chosen, grab, onKey, ranges }} north=${place.plan.north_deg} draggedKey=${live} choose=${choose}
                label=${`Plan of ${place.name || place.id}: Tab goes through what stands here, arrows move it`} />
            ${live === null && html`<${FaultLine} ...${{ faults, items, choose }} />`}
            <${Tools} openPalette=${() => setDialog('palette')} openDrawing=${() => setDialog('drawing')} ...${{ zoom, fit }} /></div>
        <div class="plan-side stack">
            ${chosen && html`<${Panel} item=${chosen} faults=${faults.get(chosen.key)} plan=${place.plan} changePlan=${edits.changePlan} job=${job} isOpen=${isOpen} setOpen=${setOpen} close=${() => choose(null)}
                isUsual=${usualOf(chosen)} usual=${() => markUsual(job, id, chosen.owner.id)} measured=${() => markMeasured(job, id, chosen.owner.id)}
                change=${(label, how, isSize) => { edits.change(chosen, label, how); if (isSize) markMeasured(job, id, chosen.owner.id) }}
                remove=${() => { edits.remove(chosen); choose(null) }} turn=${() => edits.turn(chosen)} />`}
            <${Beside} ...${{ items, findings, faults, chosen, choose, job, zones }} measure=${toMeasure(items, findings, usualOf)} /></div>
        <p class="unseen" aria-live="polite">${words}</p>
        ${dialog === 'palette' && html`<${Palette} placeKind=${place.kind} unplaced=${unplaced} addThing=${put(edits.put)} addPoint=${put(edits.putPoint)} placePoint=${put(edits.placePoint)}
            addRoom=${() => setDialog('room')} close=${() => setDialog((now) => (now === 'palette' ? '' : now))} />`}
        ${dialog === 'room' && html`<${Dialog} title="Another room" close=${() => setDialog('')}><${Begin} noHeight give=${(outline) => { edits.addRoom(outline); setDialog(''); fit() }} /><//>`}
        ${dialog === 'drawing' && html`<${Finished} ...${{ document, place }} close=${() => setDialog('')} />`}
    </div>`
}

function Empty({ place, job }) {
    const give = (outline_m, height_m) => edit(`Room of ${place.name || place.id}`, (now) => withPlan(now, place.id, (plan) => withKey({ ...plan, outline_m }, 'height_m', height_m ?? plan.height_m)))
    return html`<div class="stack measure"><div class="spread plan-head"><h1>Plan of ${place.name || place.id}</h1><a class="button" aria-label="The place" href=${addressOf(job, 'place', place.id)}><${Icon} name="back" /><span class="plan-word">The place</span></a></div>
        <p>Where a bath, shower or pool stands, what a point needs depends on where it is. Draw the room, put in what stands there, and see the zones.</p>
        <div class="sheet"><${Begin} give=${give} /></div></div>`
}

export function PlanView({ job, id }) {
    const document = useStore(session, (state) => state.document)
    const place = placeOf(document, id)
    if (!place) return html`<div class="sheet stack measure"><h1>No such place</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    if (!roomsOf(place.plan ?? {}).length) return html`<${Empty} ...${{ place, job }} />`
    return html`<${Editor} ...${{ document, place, job }} />`
}
