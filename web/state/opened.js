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
//     rows        point id -> brief finding (docs/findings.md), read like a Map (state/rows.js)
//     stale       true while an edit that touched many points is not judged yet
//     whole       the brief findings of the whole job without its points (questions, problems …), or null before
//     past, future    [{ label, document }], youngest last
//     problem     why the job cannot be judged at all, or null

import { core, Unreadable } from '../core/core.js'
import { documentText } from './document.js'
import { findingOf, judgePoints, touchedPoints } from './judge.js'
import { documentOf } from './reading.js'
import { Rows } from './rows.js'
import { makeStore } from './store.js'

const nothing = { id: null, document: null, rows: new Rows(), stale: false, whole: null, past: [], future: [], problem: null }

// Beyond this many touched points the page does not wait: the worker answers a little later.
const AT_ONCE_MOST = 400
const PAST_MOST = 500
const WHOLE_AFTER_MS = 250

export const opened = makeStore(nothing)

let wholeTimer
let opening = 0 // counts the jobs that were opened

// A finding in full, of a point in the open job; made when asked for.
export function fullFinding(pointId) {
    const { document } = opened.get()
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

// The rows after an edit, and whether they tell all that it touched.
function judgeTouched(before, after, rows) {
    const touched = touchedPoints(before, after)
    if (!touched.length) return { rows }
    if (touched.length > AT_ONCE_MOST) return { rows, stale: true }
    return { rows: rows.edited(judgePoints(core, after, touched).map(briefOf)) }
}

async function judgeWhole() {
    const { document } = opened.get()
    const asked = opening
    if (!document) return
    try {
        const { points, ...whole } = await core.judgeWhole(documentText(document), asked)
        if (asked !== opening) return
        const { document: latest, rows } = opened.get()
        if (latest === document) opened.set({ whole, rows: rows.judged(points, true), stale: false, problem: null })
        else opened.set({ rows: rows.judged(points, false) })
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        if (opened.get().document === document) opened.set({ problem: error.problem, whole: null })
    }
}

// Counts and questions of the whole job, a moment after the last edit.
function judgeWholeSoon(wait) {
    clearTimeout(wholeTimer)
    wholeTimer = setTimeout(judgeWhole, wait)
}

function show(document, changes) {
    const { document: before, rows } = opened.get()
    let judged = { rows, problem: null }
    try {
        judged = { ...judged, ...judgeTouched(before, document, rows) }
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        judged.problem = error.problem
    }
    opened.set({ document, ...judged, ...changes })
    judgeWholeSoon(WHOLE_AFTER_MS)
}

// Throws when the text is no job document.
export function openJob({ id, text }) {
    const document = documentOf(text)
    opening++
    opened.set({ ...nothing, rows: new Rows(), id, document })
    judgeWholeSoon(0)
}

export function closeJob() {
    opening++
    opened.set(nothing)
}

// change(document) -> document; nothing happens when it gives the same one.
export function edit(label, change) {
    const { document, past } = opened.get()
    const next = change(document)
    if (next === document) return
    show(next, { past: [...past.slice(-PAST_MOST), { label, document }], future: [] })
}

// While something is dragged: shown and judged, but the way back leads to where the drag began.
export function editLive(change) {
    const { document } = opened.get()
    const next = change(document)
    if (next !== document) show(next, {})
}

// Ends a drag that began with the given document.
export function endLive(label, began) {
    const { document, past } = opened.get()
    if (document !== began) opened.set({ past: [...past.slice(-PAST_MOST), { label, document: began }], future: [] })
}

export function undo() {
    const { document, past, future } = opened.get()
    if (!past.length) return
    const last = past[past.length - 1]
    show(last.document, { past: past.slice(0, -1), future: [...future, { label: last.label, document }] })
}

export function redo() {
    const { document, past, future } = opened.get()
    if (!future.length) return
    const next = future[future.length - 1]
    show(next.document, { past: [...past, { label: next.label, document }], future: future.slice(0, -1) })
}

// Puts another document in place (from a merge or an earlier version); the way back stays.
export function replaceDocument(label, text) {
    const read = documentOf(text)
    edit(label, () => read)
}
