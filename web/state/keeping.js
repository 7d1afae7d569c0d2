// SPDX-License-Identifier: MIT
//
// Keeps the open job on the shelf: after every edit, and once more when the page goes away. One write at a time; what
// changes meanwhile is written next.

import { documentText } from './document.js'
import { session } from './session.js'
import { jobOf, keepJob, recordOf } from './shelf.js'
import { makeStore } from './store.js'

// state: 'kept' | 'keeping' | 'failed'
export const keeping = makeStore({ state: 'kept', why: null })

let kept = null
let writing = null

async function write() {
    const { id, document } = session.get()
    if (!document || document === kept) return
    keeping.set({ state: 'keeping', why: null })
    const before = await jobOf(id)
    await keepJob(recordOf({ id, document, text: documentText(document), before }))
    kept = document
    if (session.get().document === document || session.get().id !== id) keeping.set({ state: 'kept', why: null })
}

export function keepNow() {
    writing = (writing ?? Promise.resolve()).then(write).catch((error) => keeping.set({ state: 'failed', why: error.message }))
    return writing
}

// A document that came from the shelf is kept already.
export const isKept = (document) => {
    kept = document
}

session.watch(() => {
    const { document } = session.get()
    if (document && document !== kept) keepNow()
})
addEventListener('visibilitychange', () => keepNow())
addEventListener('pagehide', () => keepNow())
