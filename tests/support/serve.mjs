// SPDX-License-Identifier: MIT
//
// The program's server on a free port, with a data folder of its own.

import { mkdtempSync, rmSync } from 'node:fs'
import { spawn } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const ownProgram = process.env.DRIPSTONE ?? fileURLToPath(new URL('../../build/release/dripstone', import.meta.url))

// { base, data, stop(), kill() }: stop ends it kindly, which must succeed, and removes the data unless it was handed in.
export async function startServer({ program = ownProgram, data, port = 0, options = [] } = {}) {
    const own = data ?? mkdtempSync(join(tmpdir(), 'dripstone-data-'))
    const child = spawn(program, ['serve', '--port', String(port), '--data', own, ...options], { stdio: ['ignore', 'pipe', 'pipe'] })
    const said = []
    child.stderr.on('data', (bytes) => said.push(bytes))
    const ended = new Promise((done) => child.once('close', done))
    const base = await new Promise((done, fail) => {
        let text = ''
        child.stdout.on('data', (bytes) => {
            text += bytes
            const found = /(https?:\/\/[\w.:[\]]+\/)/.exec(text)
            if (found) done(found[1])
        })
        ended.then((status) => fail(new Error(`the server ended with ${status}: ${Buffer.concat(said)}`)))
    })
    const end = (signal) => {
        child.kill(signal)
        return ended
    }
    let killed = false
    return {
        base,
        data: own,
        pid: child.pid,
        kill: () => {
            killed = true
            return end('SIGKILL')
        },
        stop: async () => {
            const status = killed ? 0 : await end('SIGTERM')
            if (status !== 0) throw new Error(`the server ended with ${status}: ${Buffer.concat(said)}`)
            if (!data) rmSync(own, { recursive: true, force: true })
        }
    }
}
