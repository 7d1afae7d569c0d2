// SPDX-License-Identifier: MIT
//
// The open job: its document, what the core says of it, and the way back. All edits go through edit(); whatever keeps or
// sends the document watches the store.
//
//     openJob({ id, text })                     parses, judges, shows
//     edit('Mark of P1', (document) => withPoint(document, 'P1', …))
//     undo(); redo()
//
// The store holds
//     id          of the job on this device
//     document    the document (state/document.js), or null when no job is open
//     rows        Map: point id -> brief finding (docs/findings.md), of the last judging
//     whole       the brief findings of the whole job (counted, questions, problems …), or null while they are made
//     past, future    [{ label, document }], youngest last
//     problem     why the job cannot be judged at all, or null

import { core, Unreadable } from '../core/core.js'
import { documentText } from './document.js'
import { findingOf, judgePoints, touchedPoints } from './judge.js'
import { makeStore } from './store.js'

const nothing = { id: null, document: null, rows: new Map(), whole: null, past: [], future: [], problem: null }

// Beyond this many touched points the page does not wait: the worker answers a little later.
const AT_ONCE_MOST = 400
const PAST_MOST = 500
const WHOLE_AFTER_MS = 250

export const session = makeStore(nothing)

let wholeTimer

// A finding in full, of a point in the open job; made when asked for.
export function fullFinding(pointId) {
    const { document } = session.get()
    try {
        return findingOf(core, document, pointId)
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        return undefined
    }
}

const codeOf = ({ needed }) => [needed.ip, needed.ik].filter(Boolean).join(' ')

// A whole finding with what is needed as one code.
export const rowOf = (finding) => ({ ...finding, needed: codeOf(finding) || null })

// The same in the words of a brief finding, so that a list reads alike before and after the whole job is judged.
function briefOf(finding) {
    const { rated_c: rated, cold_c: cold, surface_d: surface } = finding.needed
    const needed = [codeOf(finding), rated !== undefined && `rated for ${rated} °C`, cold !== undefined && `rated down to ${cold} °C`, surface && 'limited surface temperature']
    return { ...finding, needed: needed.filter(Boolean).join('; ') || 'nothing', marked: finding.marked ?? 'none' }
}

function judgeTouched(before, after, rows) {
    const touched = touchedPoints(before, after)
    if (!touched.length || touched.length > AT_ONCE_MOST) return rows
    const fresh = new Map(rows)
    for (const finding of judgePoints(core, after, touched)) fresh.set(finding.id, briefOf(finding))
    return fresh
}

// Counts and questions of the whole job, a moment after the last edit.
function judgeWholeSoon(wait) {
    clearTimeout(wholeTimer)
    wholeTimer = setTimeout(async () => {
        const { document, id } = session.get()
        if (!document) return
        try {
            const whole = await core.judgeWhole(documentText(document))
            if (session.get().document !== document || session.get().id !== id) return
            session.set({ whole, rows: new Map(whole.points.map((row) => [row.id, row])), problem: null })
        } catch (error) {
            if (!(error instanceof Unreadable)) throw error
            if (session.get().document === document) session.set({ problem: error.problem, whole: null })
        }
    }, wait)
}

function show(document, changes) {
    const { document: before, rows } = session.get()
    let problem = null
    let fresh = rows
    try {
        fresh = judgeTouched(before, document, rows)
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        problem = error.problem
    }
    session.set({ document, rows: fresh, problem, ...changes })
    judgeWholeSoon(WHOLE_AFTER_MS)
}

// Throws a SyntaxError when the text is no JSON.
export function openJob({ id, text }) {
    const read = JSON.parse(text)
    const lists = { places: Array.isArray(read.places) ? read.places : [], points: Array.isArray(read.points) ? read.points : [] }
    session.set({ ...nothing, id, document: { ...read, ...lists } })
    judgeWholeSoon(0)
}

export const closeJob = () => session.set(nothing)

// change(document) -> document; nothing happens when it gives the same one.
export function edit(label, change) {
    const { document, past } = session.get()
    const next = change(document)
    if (next === document) return
    show(next, { past: [...past.slice(-PAST_MOST), { label, document }], future: [] })
}

// While something is dragged: shown and judged, but the way back leads to where the drag began.
export function editLive(change) {
    const { document } = session.get()
    const next = change(document)
    if (next !== document) show(next, {})
}

// Ends a drag that began with the given document.
export function endLive(label, began) {
    const { document, past } = session.get()
    if (document !== began) session.set({ past: [...past.slice(-PAST_MOST), { label, document: began }], future: [] })
}

export function undo() {
    const { document, past, future } = session.get()
    if (!past.length) return
    const last = past[past.length - 1]
    show(last.document, { past: past.slice(0, -1), future: [...future, { label: last.label, document }] })
}

export function redo() {
    const { document, past, future } = session.get()
    if (!future.length) return
    const next = future[future.length - 1]
    show(next.document, { past: [...past, { label: next.label, document }], future: future.slice(0, -1) })
}

// Puts another document in place (from a merge or an earlier version); the way back stays.
export function replaceDocument(label, text) {
    const read = JSON.parse(text)
    edit(label, () => ({ ...read, places: read.places ?? [], points: read.points ?? [] }))
}
