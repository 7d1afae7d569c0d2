// SPDX-License-Identifier: MIT
//
// Jobs kept on this device, in the browser's own database: each document as text, at once after every edit. A record is
//     { id, title, points, text, saved,        what is here and when it was kept
//       removed,                               true: to be removed from the server too
//       remote, version, tag, base }           of the last sync: its id there, version, ETag and text
// A job with text !== base has something to send (state/sync.js). Records are only changed inside one transaction, so
// that the keeping of an edit and a sync never undo each other.

const NAME = 'dripstone'
const STORE = 'jobs'

let opening

function database() {
    opening ??= new Promise((done, fail) => {
        const request = indexedDB.open(NAME, 1)
        request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'id' })
        request.onsuccess = () => done(request.result)
        request.onerror = () => fail(request.error)
    })
    return opening
}

async function ask(mode, request) {
    const transaction = (await database()).transaction(STORE, mode, { durability: 'strict' })
    const asked = request(transaction.objectStore(STORE))
    return new Promise((done, fail) => {
        transaction.oncomplete = () => done(asked.result)
        transaction.onabort = () => fail(transaction.error)
    })
}

// change(record or undefined) -> record to keep, or undefined to leave all as it is. Resolves to what is there then.
export async function changeJob(id, change) {
    const transaction = (await database()).transaction(STORE, 'readwrite', { durability: 'strict' })
    const store = transaction.objectStore(STORE)
    return new Promise((done, fail) => {
        let kept
        const read = store.get(id)
        read.onsuccess = () => {
            kept = change(read.result)
            if (kept) store.put(kept)
            else kept = read.result
        }
        transaction.oncomplete = () => done(kept)
        transaction.onabort = () => fail(transaction.error)
    })
}

export const allJobs = () => ask('readonly', (store) => store.getAll())
export const jobOf = (id) => ask('readonly', (store) => store.get(id))
export const keepJob = (record) => ask('readwrite', (store) => store.put(record))
export const dropJob = (id) => ask('readwrite', (store) => store.delete(id))

// "k7f3…": no two devices make the same one.
export const newJobId = () => Array.from(crypto.getRandomValues(new Uint8Array(10)), (byte) => (byte % 36).toString(36)).join('')

export const recordOf = ({ id, document, text, before = {} }) => ({
    ...before,
    id,
    title: String(document.title ?? ''),
    points: document.points.length,
    text,
    saved: new Date().toISOString()
})
