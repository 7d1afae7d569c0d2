// SPDX-License-Identifier: MIT
//
// The WebAssembly module, opened with the project's words and packs; its answers as text.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'

const WORDS = ['words', 'seen']
const PACKS = ['iec', 'gb-2022', 'gb-2018', 'de', 'fr', 'au']

// The module asks for a file system that it has no use for: every call fails (8 is "bad file descriptor").
const noFiles = new Proxy({}, { get: () => () => 8 })

export async function openModule(path, root) {
    const { instance } = await WebAssembly.instantiate(readFileSync(path), { wasi_snapshot_preview1: noFiles })
    const core = instance.exports
    core._initialize()
    const handle = core.ds_wasm_open()

    // Copies texts in, calls, and gives the result's text.
    const call = (name, ...texts) => {
        const places = texts.map((text) => {
            const bytes = new TextEncoder().encode(text)
            const at = core.ds_wasm_take(bytes.length)
            new Uint8Array(core.memory.buffer, at, bytes.length).set(bytes)
            return [at, bytes.length]
        })
        const status = core[name](handle, ...places.flat())
        const result = new Uint8Array(core.memory.buffer, core.ds_wasm_result_at(handle), core.ds_wasm_result_len(handle))
        const text = new TextDecoder().decode(result.slice())
        places.forEach(([at]) => core.ds_wasm_give(at))
        return { status, text }
    }
    const load = (how, name) => {
        const { status, text } = call(how, readFileSync(join(root, `rules/${name}.json`), 'utf8'))
        if (status !== 0) throw new Error(`${name}: ${text}`)
    }
    WORDS.forEach((name) => load('ds_wasm_words', name))
    PACKS.forEach((name) => load('ds_wasm_pack', name))
    load('ds_wasm_sizes', 'entries')
    // The questions of core/answer/answer.c, by name.
    return (name, ...texts) => call('ds_wasm_ask', name, ...texts).text
}
