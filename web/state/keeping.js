// SPDX-License-Identifier: MIT
//
// Keeps the open job on the shelf: after every edit, and once more when the page goes away. One write at a time; what
// changes meanwhile is written next. A job of 40,000 points takes its time to write: between two writes the page has four
// times as long for whoever edits.

import { documentText } from './document.js'
import { opened } from './opened.js'
import { changeJob, recordOf } from './shelf.js'
import { makeStore } from './store.js'

// state: 'kept' | 'keeping' | 'failed'
export const keeping = makeStore({ state: 'kept', why: null })

const REST = 4

let kept = null
const waiting = new Map() // job -> the document to write
let writing = Promise.resolve()
let restUntil = 0
let endRest = () => {}

function rest() {
    const ms = restUntil - performance.now()
    if (ms <= 0 || document.visibilityState === 'hidden') return undefined
    return new Promise((done) => {
        endRest = done
        setTimeout(done, ms)
    })
}

async function writeOne(id, job) {
    keeping.set({ state: 'keeping', why: null })
    const text = documentText(job)
    await changeJob(id, (before) => recordOf({ id, document: job, text, before }))
    kept = job
    if (waiting.get(id) === job) waiting.delete(id)
    afterKept()
}

async function write() {
    if (!waiting.size) return
    await rest()
    const began = performance.now()
    for (const [id, job] of [...waiting]) await writeOne(id, job)
    restUntil = performance.now() + REST * (performance.now() - began)
    if (!waiting.size) keeping.set({ state: 'kept', why: null })
}

function keepSoon() {
    writing = writing.then(write).catch((error) => keeping.set({ state: 'failed', why: error.message }))
    return writing
}

// Resolves when all that was edited is on the shelf, or could not be put there.
export function keepNow() {
    restUntil = 0
    endRest()
    return keepSoon()
}

// A document that came from the shelf is kept already.
export function isKept(job) {
    kept = job
    for (const [id, each] of waiting) if (each === job) waiting.delete(id)
}

// What to do once something was kept (state/sync.js sends it).
let afterKept = () => {}
export const onKept = (act) => {
    afterKept = act
}

opened.watch(() => {
    const { id, document: job } = opened.get()
    if (!job) keepNow()
    if (!job || job === (waiting.get(id) ?? kept)) return
    waiting.set(id, job)
    keepSoon()
})
addEventListener('visibilitychange', keepNow)
addEventListener('pagehide', keepNow)
