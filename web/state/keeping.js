// SPDX-License-Identifier: MIT
//
// Keeps the open job on the shelf: after every edit, and once more when the page goes away. One write at a time; what
// changes meanwhile is written next.

import { documentText } from './document.js'
import { session } from './session.js'
import { changeJob, recordOf } from './shelf.js'
import { makeStore } from './store.js'

// state: 'kept' | 'keeping' | 'failed'
export const keeping = makeStore({ state: 'kept', why: null })

let kept = null
let writing = null

async function write() {
    const { id, document } = session.get()
    if (!document || document === kept) return
    keeping.set({ state: 'keeping', why: null })
    const text = documentText(document)
    await changeJob(id, (before) => recordOf({ id, document, text, before }))
    kept = document
    afterKept()
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

// What to do once something was kept (state/sync.js sends it).
let afterKept = () => {}
export const onKept = (act) => {
    afterKept = act
}

session.watch(() => {
    const { document } = session.get()
    if (document && document !== kept) keepNow()
})
addEventListener('visibilitychange', () => keepNow())
addEventListener('pagehide', () => keepNow())
