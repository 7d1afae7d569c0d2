// SPDX-License-Identifier: MIT
//
// The plan of a place: what stands where, zones redrawn while it is moved, and what that means for each point. By finger,
// mouse, key or number. Geometry for editing is in plan/; what zones are is the core's.

import { core } from '../core/core.js'
import { html, useEffect, useMemo, useRef, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { Icon } from '../parts/icons.js'
import { saveFile } from '../parts/save-file.js'
import { Begin } from '../plan/begin.js'
import { checks, isUsual, markMeasured, markUsual } from '../plan/checks.js'
import { Drawing, fitTo } from '../plan/drawing.js'
import { dragOf, editsOf, useKeys } from '../plan/editing.js'
import { itemOf, itemsOf, roomsOf, withPlan } from '../plan/items.js'
import { placeAnswer, problemsByItem, zonesOf } from '../plan/judged.js'
import { Answers, Things, ToMeasure, toMeasure } from '../plan/lists.js'
import { Palette } from '../plan/palette.js'
import { Panel } from '../plan/panel.js'
import { sentence, zoneChanges } from '../plan/say.js'
import { unmeasuredHeights } from '../plan/things.js'
import { zoomed } from '../plan/view.js'
import { shownZones } from '../plan/zones.js'
import { useActions } from '../state/actions.js'
import { placeOf, pointsAt, withKey } from '../state/document.js'
import { placeText } from '../state/judge.js'
import { addressOf } from '../state/route.js'
import { edit, opened } from '../state/opened.js'
import { useStore } from '../state/store.js'

// --- the core's drawing ---------------------------------------------------------------------------------------------

function Finished({ document: job, place, close }) {
    const picture = useMemo(() => core.drawPlan(placeText(job, place.id), place.id), [])
    return html`<${Dialog} title="Drawing" close=${close}>
        ${picture ? html`<div class="plan-finished" tabindex="0" dangerouslySetInnerHTML=${{ __html: picture }} />
            <div class="row"><button class="primary" onClick=${() => saveFile(`plan-${place.id}.svg`, new Blob([picture], { type: 'image/svg+xml' }))}><${Icon} name="save" />Save as SVG</button></div>`
            : html`<p>There is nothing to draw yet: the plan needs a closed room and what its zones are measured from.</p>`}
    <//>`
}

// --- what is known of the plan --------------------------------------------------------------------------------------

function useAnswer(document, id, live) {
    const rows = useStore(opened, (state) => state.rows)
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
    const [asked, setAsked] = useState(0)
    const before = useRef(findings)
    const about = useRef('')
    useEffect(() => {
        if (live) return
        const changes = zoneChanges(before.current, findings)
        if (about.current || changes) setWords([about.current, changes].filter(Boolean).join('. '))
        before.current = findings
        about.current = ''
    }, [findings, live, asked])
    const say = (text) => {
        about.current = text
        setAsked((count) => count + 1)
    }
    return [words, say]
}

// Once the page is drawn again, the focus goes to what is meant.
const focusOn = (selector) => setTimeout(() => document.querySelector(selector)?.focus({ preventScroll: true }))

// --- the editor -----------------------------------------------------------------------------------------------------

function Tools({ openPalette, openDrawing, zoom, fit }) {
    return html`<div class="plan-tools no-print" role="toolbar" aria-label="Plan">
        <button class="primary" onClick=${openPalette}><${Icon} name="add" />Put in</button>
        <button aria-label="Drawing" title="The finished drawing (D)" onClick=${openDrawing}><${Icon} name="plan" /><span class="plan-word">Drawing</span></button>
        <span class="plan-tools-view"><button aria-label="Further away" title="Further away (-)" onClick=${() => zoom(0.8)}>−</button><button aria-label="Nearer" title="Nearer (+)" onClick=${() => zoom(1.25)}><${Icon} name="add" /></button>
        <button title="All of it (F)" onClick=${fit}>All</button></span></div>`
}

// Why there are no zones, or what is wrong: over the head of the drawing, so that nothing moves when it comes and goes.
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

function Dialogs({ dialog, setDialog, document, place, items, edits, choose, fit }) {
    const unplaced = items.filter(({ sort, shape }) => sort === 'point' && !shape).map(({ owner }) => owner)
    const close = () => setDialog('')
    const put = (act) => (what) => {
        close()
        choose(act(what), false)
    }
    const addRoom = (outline) => {
        edits.addRoom(outline)
        close()
        fit()
    }
    if (dialog === 'palette') return html`<${Palette} placeKind=${place.kind} unplaced=${unplaced} addThing=${put(edits.put)} addPoint=${put(edits.putPoint)} placePoint=${put(edits.placePoint)}
        addRoom=${() => setDialog('room')} close=${() => setDialog((now) => (now === 'palette' ? '' : now))} />`
    if (dialog === 'room') return html`<${Dialog} title="Another room" close=${close}><${Begin} noHeight give=${addRoom} /><//>`
    return dialog === 'drawing' ? html`<${Finished} ...${{ document, place, close }} />` : null
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
    const removeNow = (item) => {
        edits.remove(item)
        choose(null)
        focusOn(item.sort === 'thing' ? `[data-key="thing:${Math.max(0, item.index - 1)}"]` : '.plan-drawing [data-key]')
    }
    const openNumbers = (key) => {
        choose(key, true)
        focusOn('.plan-panel-body :is(input, select)')
    }
    const onKey = useKeys({ id, place, items, edits, choose, removeNow, openNumbers, zoom, setLive, say })
    const grab = (what, from) => (what.item.sort === 'room' && !what.handle ? null : dragOf({ id, items, ...what, from, view, place, setLive, say, choose: setChosen }))
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
    return html`<div class="plan">
        <div class="spread plan-head"><h1>Plan of ${place.name || place.id}</h1><a class="button" aria-label="The place" href=${addressOf(job, 'place', id)}><${Icon} name="back" /><span class="plan-word">The place</span></a></div>
        <div class="plan-desk" ref=${desk}><div class="plan-sheet">
            <${Drawing} ...${{ view, setView, items, shown, findings, faults, chosen, grab, onKey, ranges }} north=${place.plan.north_deg} draggedKey=${live} choose=${choose}
                label=${`Plan of ${place.name || place.id}: Tab goes through what stands here, arrows move it`} />
            ${live === null && html`<${FaultLine} ...${{ faults, items, choose }} />`}</div>
            <${Tools} openPalette=${() => setDialog('palette')} openDrawing=${() => setDialog('drawing')} ...${{ zoom, fit }} /></div>
        <div class="plan-side stack">
            ${chosen && html`<${Panel} item=${chosen} faults=${faults.get(chosen.key)} plan=${place.plan} changePlan=${edits.changePlan} job=${job} isOpen=${isOpen} setOpen=${setOpen} close=${() => { choose(null); focusOn(`[data-key="${CSS.escape(chosen.key)}"]`) }}
                isUsual=${usualOf(chosen)} usual=${() => markUsual(job, id, chosen.owner.id)} measured=${() => markMeasured(job, id, chosen.owner.id)}
                change=${(label, how, isSize) => { edits.change(chosen, label, how); if (isSize) markMeasured(job, id, chosen.owner.id) }}
                place=${() => edits.placePoint(chosen.owner)} remove=${() => removeNow(chosen)} turn=${() => edits.turn(chosen)} />`}
            <${Beside} ...${{ items, findings, faults, chosen, choose, job, zones }} measure=${toMeasure(place.plan, items, findings, usualOf)} /></div>
        <p class="unseen" aria-live="polite">${words}</p>
        <${Dialogs} ...${{ dialog, setDialog, document, place, items, edits, choose, fit }} />
    </div>`
}

function Empty({ place, job }) {
    const give = (outline_m, height_m) => edit(`Room of ${place.name || place.id}`, (now) => withPlan(now, place.id, (plan) => withKey({ ...plan, outline_m }, 'height_m', height_m ?? plan.height_m)))
    return html`<div class="stack measure"><div class="spread plan-head"><h1>Plan of ${place.name || place.id}</h1><a class="button" aria-label="The place" href=${addressOf(job, 'place', place.id)}><${Icon} name="back" /><span class="plan-word">The place</span></a></div>
        <p>Where a bath, shower or pool stands, what a point needs depends on where it is. Draw the room, put in what stands there, and see the zones.</p>
        <div class="sheet"><${Begin} give=${give} /></div></div>`
}

export function PlanView({ job, id }) {
    const document = useStore(opened, (state) => state.document)
    const place = placeOf(document, id)
    if (!place) return html`<div class="sheet stack measure"><h1>No such place</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    if (!roomsOf(place.plan ?? {}).length) return html`<${Empty} ...${{ place, job }} />`
    return html`<${Editor} ...${{ document, place, job }} />`
}
