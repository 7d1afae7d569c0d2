// SPDX-License-Identifier: MIT
//
// Jobs between this device and the server that the page came from. This device comes first: all work is on the shelf,
// and sync sends it when the server answers, minutes or weeks later. Where both sides changed a job, the core merges
// them by id; what it cannot merge is shown side by side (views/conflict.js) and nothing is sent until a person chose.
//
// One page at a time syncs (a lock of the browser's), one job after another.

import { core } from '../core/core.js'
import { isKept, keepNow, onKept } from './keeping.js'
import { Away, createJob, Differs, fetchJob, listJobs, Refused, removeJob, saveJob } from './server.js'
import { replaceDocument, opened } from './opened.js'
import { allJobs, changeJob, dropJob, keepJob, newJobId, recordOf } from './shelf.js'
import { makeStore } from './store.js'

// state: 'off' no server was ever there; 'sending', 'sent', 'away', 'conflict', 'refused' (why)
// conflicts: Map: job id -> { merged, conflicts, theirs, tag }
export const syncing = makeStore({ state: 'off', why: null, conflicts: new Map() })

const EVERY_MS = 15000
const AFTER_EDIT_MS = 800

const isDirty = ({ text, base }) => text !== base

// "3-9f…" -> 3: an ETag begins with the version.
const versionOf = (tag) => Number(/(\d+)-/.exec(tag ?? '')?.[1])

const isOpen = (id) => opened.get().id === id

// Puts a text from outside in the place of what is on the shelf, unless that was edited meanwhile.
async function replaceText(id, expected, text, sync, label) {
    const record = await changeJob(id, (now) => (now?.text === expected ? { ...recordOf({ id, document: looked(text), text, before: now }), ...sync } : undefined))
    if (record?.text !== text) return false
    if (isOpen(id)) {
        replaceDocument(label, text)
        isKept(opened.get().document)
    }
    return true
}

function looked(text) {
    const { title, points } = JSON.parse(text)
    return { title, points: Array.isArray(points) ? points : [] }
}

function setConflict(id, conflict) {
    const conflicts = new Map(syncing.get().conflicts)
    if (conflict) conflicts.set(id, conflict)
    else conflicts.delete(id)
    syncing.set({ conflicts })
}

// Both sides changed it. True when the merged job is on the shelf, ready to be sent.
async function mergeWith(record, { text: theirs, tag }) {
    const { merged, conflicts } = core.merge(record.base, record.text, theirs)
    const text = `${JSON.stringify(merged, null, 2)}\n`
    if (conflicts.length) {
        setConflict(record.id, { merged, conflicts, theirs, tag, mine: record.text })
        return false
    }
    return replaceText(record.id, record.text, text, { base: theirs, tag, version: versionOf(tag) }, 'Merged with the server')
}

async function send(record) {
    const { tag } = await saveJob(record.remote, record.text, record.tag)
    await changeJob(record.id, (now) => ({ ...now, base: record.text, tag, version: versionOf(tag) }))
    setConflict(record.id, null)
}

async function sendNew(record) {
    const { remote, tag } = await createJob(record.text)
    await changeJob(record.id, (now) => ({ ...now, remote, base: record.text, tag, version: versionOf(tag) }))
}

// The server's job is another than the one last seen.
async function takeTheirs(record) {
    const theirs = await fetchJob(record.remote)
    const sync = { base: theirs.text, tag: theirs.tag, version: versionOf(theirs.tag) }
    if (!isDirty(record)) return replaceText(record.id, record.text, theirs.text, sync, 'Changes from the server')
    if (theirs.text === record.text) return changeJob(record.id, (now) => ({ ...now, ...sync }))
    if (await mergeWith(record, theirs)) await send(await changeJob(record.id, () => undefined))
    return undefined
}

async function remove(record) {
    if (record.remote) await removeJob(record.remote, record.tag).catch((error) => { if (!(error instanceof Differs)) throw error })
    await dropJob(record.id)
}

async function syncOne(record, entry) {
    if (record.removed) return remove(record)
    if (!record.remote) return sendNew(record)
    if (!entry) return isDirty(record) ? sendNew({ ...record, remote: undefined }) : isOpen(record.id) ? undefined : dropJob(record.id)
    if (entry.version !== record.version) return takeTheirs(record)
    return isDirty(record) ? send(record) : undefined
}

async function takeNew(entry) {
    const { text, tag } = await fetchJob(entry.id)
    const id = newJobId()
    await keepJob({ ...recordOf({ id, document: looked(text), text }), saved: entry.saved, remote: entry.id, base: text, tag, version: versionOf(tag) })
}

async function syncAll() {
    await keepNow()
    const entries = new Map((await listJobs()).map((entry) => [entry.id, entry]))
    const records = await allJobs()
    const known = new Set(records.map(({ remote }) => remote))
    let refused = null
    for (const record of records) {
        try {
            await syncOne(record, entries.get(record.remote))
        } catch (error) {
            if (error instanceof Refused) refused = error.message
            else if (!(error instanceof Differs)) throw error // a Differs is looked at in the next round
        }
    }
    for (const entry of entries.values()) if (!known.has(entry.id)) await takeNew(entry)
    return refused
}

let again = false

async function run() {
    syncing.set({ state: 'sending', why: null })
    try {
        const refused = await syncAll()
        const { conflicts } = syncing.get()
        syncing.set({ state: conflicts.size ? 'conflict' : refused ? 'refused' : 'sent', why: refused })
    } catch (error) {
        if (error instanceof Differs) syncing.set({ state: 'off', why: null }) // a place that serves the page and no jobs
        else if (error instanceof Away) syncing.set({ state: 'away', why: error.message })
        else throw error
    }
}

export async function syncNow() {
    again = true
    await navigator.locks.request('dripstone-sync', async () => {
        if (!again) return
        again = false
        await run()
    })
}

// A person chose: the merged document with their choices takes the place of both.
export async function settleConflict(id, text) {
    const { theirs, tag, mine } = syncing.get().conflicts.get(id)
    setConflict(id, null)
    await replaceText(id, mine, text, { base: theirs, tag, version: versionOf(tag) }, 'Settled with the server')
    syncNow()
}

export function startSync() {
    let soon
    onKept(() => {
        clearTimeout(soon)
        soon = setTimeout(syncNow, AFTER_EDIT_MS)
    })
    navigator.serviceWorker?.register('sw.js')
    addEventListener('online', syncNow)
    setInterval(() => document.visibilityState === 'visible' && syncNow(), EVERY_MS)
    return syncNow()
}
