// SPDX-License-Identifier: MIT
//
// The core beside the page: whole jobs are judged here, so that the page never waits. First message { bytes, rules },
// then { id, text, opening } -> { id, status, value } or { id, error }. The value is the brief findings, of whose points
// only those that are other than in the answer before: taking in 40,000 would keep the page from answering. Another
// opening (a number) begins anew.

import { changedRows } from '../state/rows.js'
import { openCore } from './module.js'

let core
let before = { opening: undefined, rows: new Map() }

async function judge({ text, opening }) {
    const { status, text: answer } = (await core).ask('brief', text)
    const value = JSON.parse(answer)
    if (before.opening !== opening) before = { opening, rows: new Map() }
    return { status, value: value.points ? { ...value, points: changedRows(before.rows, value.points) } : value }
}

self.onmessage = async ({ data }) => {
    if (data.bytes) {
        core = openCore(data.bytes, data.rules)
        return
    }
    try {
        self.postMessage({ id: data.id, ...await judge(data) })
    } catch (error) {
        self.postMessage({ id: data.id, error: error.message })
    }
}
