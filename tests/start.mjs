// SPDX-License-Identifier: MIT
//
// ./start, in this checkout, with the release already built: node tests/start.mjs

import { match, ok, strictEqual } from 'node:assert'
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawn, spawnSync } from 'node:child_process'
import { ask } from './support/http.mjs'
import { finish, test } from './support/judge.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const start = join(root, 'start')
const home = mkdtempSync(join(tmpdir(), 'dripstone-start-'))
const examples = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json'))
const quiet = { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '' }

function run(...words) {
    return spawnSync(start, words, { cwd: tmpdir(), encoding: 'utf8', timeout: 300000, env: quiet })
}

await test('--help says what it does', () => {
    const { status, stdout } = run('--help')
    strictEqual(status, 0)
    match(stdout, /--check/)
})

await test('what it does not know is refused', () => {
    for (const words of [['--nonsense'], ['serve'], ['--port'], ['--check', '--data']]) strictEqual(run(...words).status, 2, words.join(' '))
})

await test('--check builds and checks the example, and ends', () => {
    const { status, stdout, stderr } = run('--check')
    strictEqual(status, 0, stderr)
    match(stdout, /examples\/mill-house\.json/)
    match(stdout, /\d+ points/)
})

async function serving(words, env, use) {
    const child = spawn(start, words, { cwd: home, env, stdio: ['ignore', 'pipe', 'inherit'] })
    const ended = new Promise((done) => child.once('exit', done))
    let said = ''
    const base = await new Promise((done, fail) => {
        child.stdout.on('data', (bytes) => {
            said += bytes
            const found = /http:\/\/[\d.:]+\/(?=\n)/.exec(said)
            if (found) done(found[0])
        })
        ended.then((status) => fail(new Error(`it ended with ${status}: ${said}`)))
    })
    try {
        await use(base)
    } finally {
        child.kill('SIGTERM')
        strictEqual(await ended, 0)
    }
}

await test('it serves the page, with the examples as jobs, and ends kindly', async () => {
    for (const time of ['first', 'second']) {
        await serving(['--port', '0', '--data', 'jobs'], quiet, async (base) => {
            const { jobs } = JSON.parse((await ask(base, 'GET', '/api/jobs')).text)
            strictEqual(jobs.length, examples.length, time)
            match((await ask(base, 'GET', '/')).text, /<html/)
        })
    }
    ok(existsSync(join(home, 'jobs/jobs.sqlite')))
})

await test('where there is a desktop it opens the page', async () => {
    mkdirSync(join(home, 'bin'))
    writeFileSync(join(home, 'bin/xdg-open'), `#!/bin/sh\necho "$@" > ${join(home, 'opened')}\n`)
    chmodSync(join(home, 'bin/xdg-open'), 0o755)
    const env = { ...quiet, WAYLAND_DISPLAY: 'wayland-0', PATH: `${join(home, 'bin')}:${process.env.PATH}` }
    await serving(['--port', '0', '--data', 'jobs'], env, async (base) => {
        const until = Date.now() + 30000
        const opened = () => existsSync(join(home, 'opened')) && readFileSync(join(home, 'opened'), 'utf8').trim()
        while (opened() !== base) {
            ok(Date.now() < until, `opened ${opened()}`)
            await new Promise((done) => setTimeout(done, 20))
        }
    })
})

rmSync(home, { recursive: true })
finish()
