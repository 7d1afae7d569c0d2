// SPDX-License-Identifier: MIT
//
// The core beside the page: whole jobs are judged here, so that the page never waits. First message { bytes, rules },
// then { id, name, texts } -> { id, status, text } or { id, error }.

import { openCore } from './module.js'

let core

self.onmessage = async ({ data }) => {
    if (data.bytes) {
        core = openCore(data.bytes, data.rules)
        return
    }
    try {
        const { status, text } = (await core).ask(data.name, ...data.texts)
        self.postMessage({ id: data.id, status, value: JSON.parse(text) })
    } catch (error) {
        self.postMessage({ id: data.id, error: error.message })
    }
}
