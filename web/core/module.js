// SPDX-License-Identifier: MIT
//
// The core as WebAssembly: texts in, texts out. Everything that the page knows about protection, zones and boxes is
// computed here, by the same C code as in the program; nothing of it is written twice.
//
//     const core = await openCore(bytes, rules)     rules: [{ kind: 'words' | 'pack' | 'sizes', text }, …] in order
//     core.ask('brief', jobText)                    { status, text }
//
// Statuses are the exit statuses of the program: 0 all fit, 1 not all, 2 unreadable (text then holds {"problem": …}).
// Memory that runs out throws an OutOfMemory.

export class OutOfMemory extends Error {}

const FINE = 0
const NO_MEMORY = 3

// The module asks for a file system that it never uses.
const NOT_THERE = 52
const imports = { wasi_snapshot_preview1: { fd_close: () => NOT_THERE, fd_seek: () => NOT_THERE, fd_write: () => NOT_THERE } }

const encoder = new TextEncoder()
const decoder = new TextDecoder()

class Core {
    constructor(exports) {
        this.exports = exports
        this.handle = exports.ds_wasm_open()
        if (!this.handle) throw new OutOfMemory('the core could not be opened')
    }

    // One of the questions of core/answer/answer.c.
    ask(name, ...texts) {
        return this.call('ask', name, ...texts)
    }

    // Calls an export with texts, each copied into the module's memory for the time of the call.
    call(name, ...texts) {
        const { exports } = this
        const held = texts.map((text) => this.#put(encoder.encode(text)))
        try {
            const status = exports[`ds_wasm_${name}`](this.handle, ...held.flat())
            if (status === NO_MEMORY) throw new OutOfMemory(`no memory for ${name}`)
            return { status, text: this.#result() }
        } finally {
            held.forEach(([at]) => exports.ds_wasm_give(at))
        }
    }

    #put(bytes) {
        const at = this.exports.ds_wasm_take(bytes.length)
        if (!at) throw new OutOfMemory('no memory for a text')
        new Uint8Array(this.exports.memory.buffer, at, bytes.length).set(bytes)
        return [at, bytes.length]
    }

    #result() {
        const { exports, handle } = this
        const at = exports.ds_wasm_result_at(handle)
        return decoder.decode(new Uint8Array(exports.memory.buffer, at, exports.ds_wasm_result_len(handle)))
    }
}

export async function openCore(bytes, rules) {
    const { instance } = await WebAssembly.instantiate(bytes, imports)
    instance.exports._initialize?.()
    const core = new Core(instance.exports)
    for (const { kind, text } of rules) {
        const { status, text: why } = core.call(kind, text)
        if (status !== FINE) throw new Error(`the rules are not readable: ${why}`)
    }
    return core
}
