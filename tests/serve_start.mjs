// SPDX-License-Identifier: MIT
//
// Starting and ending the server, and what it refuses to start with: node tests/serve_start.mjs [NAME …]

import { deepStrictEqual, match, notStrictEqual, ok, strictEqual } from 'node:assert'
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { connect } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { connect as secureConnect } from 'node:tls'
import { fileURLToPath } from 'node:url'
import { execFileSync, spawn, spawnSync } from 'node:child_process'
import { ask } from './support/http.mjs'
import { finish, skip, test } from './support/judge.mjs'
import { ownProgram, startServer } from './support/serve.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const example = (name) => join(root, `examples/${name}.json`)
const home = mkdtempSync(join(tmpdir(), 'dripstone-start-'))
const at = (name) => join(home, name)
const write = (name, text) => {
    writeFileSync(at(name), text)
    return at(name)
}

// A start that must be refused: { status, stderr }.
function refused(words, { env } = {}) {
    const run = spawnSync(ownProgram, ['serve', '--port', '0', ...words], { encoding: 'utf8', timeout: 60000, env: { ...process.env, ...env } })
    strictEqual(run.status, 2, `${run.status} ${run.signal} ${run.stdout}${run.stderr}`)
    strictEqual(run.stdout, '')
    match(run.stderr, /^dripstone/)
    return run.stderr
}

const listOf = async (server) => JSON.parse((await ask(server.base, 'GET', '/api/jobs')).text).jobs

async function withServer(options, run) {
    const server = await startServer(options)
    try {
        await run(server)
    } finally {
        await server.stop()
    }
}

/* --- jobs and their folder ---------------------------------------------------------------------------------------- */

await test('jobs named are taken in when there is none, and only then', async () => {
    const data = at('taken')
    await withServer({ data, options: [example('mill-house'), example('pottery')] }, async (server) => {
        deepStrictEqual((await listOf(server)).map(({ points }) => points).sort(), [48, 60])
    })
    await withServer({ data, options: [example('mill-house'), example('bath-house')] }, async (server) => strictEqual((await listOf(server)).length, 2))
})

await test('jobs that were all removed count as none', async () => {
    const data = at('emptied')
    await withServer({ data, options: [example('pottery')] }, async (server) => {
        const [{ id, tag }] = await listOf(server)
        strictEqual((await ask(server.base, 'DELETE', `/api/jobs/${id}`, { headers: { 'If-Match': `"${tag}"` } })).status, 204)
    })
    await withServer({ data, options: [example('mill-house')] }, async (server) => ok((await listOf(server)).length <= 1))
})

await test('jobs are there again after the end', async () => {
    const data = at('again')
    await withServer({ data, options: [example('pottery')] }, async () => {})
    await withServer({ data }, async (server) => strictEqual((await listOf(server)).length, 1))
})

await test('the folder is made, with those above it, for its owner alone', async () => {
    const data = at('a/b/c')
    await withServer({ data }, async () => {
        strictEqual(statSync(data).mode & 0o077, 0)
        for (const name of readdirSync(data)) strictEqual(statSync(join(data, name)).mode & 0o077, 0, name)
    })
})

await test("without --data it is the person's own folder for data", async () => {
    for (const [env, folder] of [[{ XDG_DATA_HOME: at('xdg') }, at('xdg/dripstone')], [{ XDG_DATA_HOME: '', HOME: at('me') }, at('me/.local/share/dripstone')]]) {
        const child = spawn(ownProgram, ['serve', '--port', '0'], { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'inherit'] })
        await new Promise((done) => child.stdout.once('data', done))
        const ended = new Promise((done) => child.once('exit', done))
        child.kill('SIGTERM')
        strictEqual(await ended, 0)
        ok(existsSync(join(folder, 'jobs.sqlite')))
    }
    match(refused([], { env: { XDG_DATA_HOME: '', HOME: undefined } }), /--data/)
})

await test('a folder that cannot be used says so', async () => {
    write('file', 'x')
    for (const data of [at('file'), at('file/below'), '/proc/dripstone', `/${'x'.repeat(300)}`]) {
        const said = refused(['--data', data])
        ok(said.includes(data), said)
    }
    match(refused(['--data', `/${'x'.repeat(5000)}`]), /--data/)
    mkdirSync(at('nosql'))
    writeFileSync(at('nosql/jobs.sqlite'), 'this is no database, and is longer than the head of one, so that it cannot pass for an empty file. '.repeat(20))
    match(refused(['--data', at('nosql')]), /database/)
    strictEqual(statSync(at('nosql/jobs.sqlite')).size > 1000, true)
})

if (process.getuid() === 0) skip('a folder that may not be written', 'root may write anywhere')
else {
    await test('a folder that may not be written says so', async () => {
        mkdirSync(at('shut'))
        chmodSync(at('shut'), 0o500)
        refused(['--data', at('shut')])
    })
}

await test('a job that is none stops the start with its place', async () => {
    const bad = write('bad.json', '{"dripstone": 1,\n "title": }')
    const said = refused(['--data', at('bad'), bad])
    ok(said.includes(bad) && said.includes('2'), said)
    ok(refused(['--data', at('bad2'), at('none.json')]).includes('none.json'))
})

/* --- the port ----------------------------------------------------------------------------------------------------- */

await test('a port that is taken says so', async () => {
    await withServer({}, async (server) => {
        const { port } = new URL(server.base)
        const said = refused(['--data', at('port'), '--port', port])
        ok(said.includes(port), said)
        strictEqual((await ask(server.base, 'GET', '/')).status, 200)
    })
})

await test('numbers that are no ports', async () => {
    for (const port of ['-1', '65536', '1.5', 'x', '', '8707x', '1e9']) refused(['--data', at('port'), '--port', port])
})

await test('a port is free again at once', async () => {
    const server = await startServer()
    const port = Number(new URL(server.base).port)
    await ask(server.base, 'GET', '/')
    await server.stop()
    await withServer({ port }, async (next) => strictEqual(new URL(next.base).port, String(port)))
})

/* --- the end ------------------------------------------------------------------------------------------------------ */

for (const signal of ['SIGTERM', 'SIGINT']) {
    await test(`${signal} ends it with 0, and the database is whole`, async () => {
        const data = at(signal)
        const child = spawn(ownProgram, ['serve', '--port', '0', '--data', data, example('pottery')], { stdio: ['ignore', 'pipe', 'inherit'] })
        const base = /http\S+/.exec(await new Promise((done) => child.stdout.once('data', (bytes) => done(String(bytes)))))[0]
        const ended = new Promise((done) => child.once('exit', done))
        for (let i = 0; i < 20; i++) await ask(base, 'POST', '/api/check', { body: '{}' })
        const start = Date.now()
        child.kill(signal)
        strictEqual(await ended, 0)
        ok(Date.now() - start < 2000)
        deepStrictEqual(readdirSync(data), ['jobs.sqlite'])
        await withServer({ data }, async (server) => strictEqual((await listOf(server)).length, 1))
    })
}

await test('--open opens the address that is printed, and a missing browser is no fault', async () => {
    mkdirSync(at('bin'))
    writeFileSync(at('bin/xdg-open'), `#!/bin/sh\necho "$@" > ${at('opened')}\n`)
    chmodSync(at('bin/xdg-open'), 0o755)
    for (const path of [`${at('bin')}:${process.env.PATH}`, at('nothing')]) {
        const child = spawn(ownProgram, ['serve', '--port', '0', '--data', at('open'), '--open'], { stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, PATH: path } })
        const said = await new Promise((done) => child.stdout.once('data', (bytes) => done(String(bytes))))
        const base = /http\S+/.exec(said)[0]
        const until = Date.now() + 30000
        while (path !== at('nothing') && !(existsSync(at('opened')) && statSync(at('opened')).size)) {
            ok(Date.now() < until, 'nothing was opened')
            await new Promise((done) => setTimeout(done, 20))
        }
        if (path !== at('nothing')) strictEqual(readFileSync(at('opened'), 'utf8').trim(), base)
        strictEqual((await ask(base, 'GET', '/')).status, 200)
        child.kill('SIGTERM')
        await new Promise((done) => child.once('exit', done))
    }
})

/* --- packs and words ---------------------------------------------------------------------------------------------- */

await test('packs and words of one\'s own are used here as in the program', async () => {
    for (const name of ['check-own-pack', 'check-own-words']) {
        const [, job, option, file] = readFileSync(join(root, `tests/cases/${name}/args`), 'utf8').replaceAll('{case}', join(root, `tests/cases/${name}`)).trim().split('\n')
        const said = spawnSync(ownProgram, ['check', job, option, file, '--json'], { encoding: 'utf8' })
        await withServer({ data: at(name), options: [option, file] }, async (server) => {
            strictEqual((await ask(server.base, 'POST', '/api/check', { body: readFileSync(job) })).text, said.stdout)
        })
        await withServer({ data: at(name) }, async (server) => notStrictEqual((await ask(server.base, 'POST', '/api/check', { body: readFileSync(job) })).text, said.stdout))
    }
})

/* --- others on the network ---------------------------------------------------------------------------------------- */

const outside = Object.values(networkInterfaces()).flat().find(({ family, internal }) => family === 'IPv4' && !internal)?.address ?? '127.0.0.2'
execFileSync('openssl', ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-days', '2', '-subj', '/CN=dripstone.test', '-keyout', at('key.pem'), '-out', at('cert.pem')], { stdio: 'ignore' })
const password = write('password', 'by the mill pond\n')
const all = ['--password-file', password, '--tls-cert', at('cert.pem'), '--tls-key', at('key.pem')]

await test('--listen is refused without password, certificate and key', async () => {
    for (const left of [[], all.slice(0, 2), all.slice(2), all.slice(0, 4), [...all.slice(0, 2), ...all.slice(4)]]) {
        match(refused(['--data', at('l'), '--listen', outside, ...left]), /password|certificate/)
        refused(['--data', at('l'), '--listen', '0.0.0.0', ...left])
        refused(['--data', at('l'), '--listen', '::', ...left])
    }
    match(refused(['--data', at('l'), '--listen', '0.0.0.0', ...all]), /--name/)
    for (const address of ['localhost', 'dripstone.test', '1.2.3', '1.2.3.4.5', '', '127.0.0.1/8', '203.0.113.9']) refused(['--data', at('l'), '--listen', address, ...all])
})

await test('a password, certificate or key that is none is refused', async () => {
    refused(['--data', at('l'), '--listen', outside, '--password-file', write('short', 'short\n'), ...all.slice(2)])
    refused(['--data', at('l'), '--listen', outside, '--password-file', write('nothing', ''), ...all.slice(2)])
    refused(['--data', at('l'), '--listen', outside, '--password-file', at('missing'), ...all.slice(2)])
    refused(['--data', at('l'), '--listen', outside, ...all.slice(0, 2), '--tls-cert', password, '--tls-key', at('key.pem')])
    refused(['--data', at('l'), '--listen', outside, ...all.slice(0, 2), '--tls-cert', at('cert.pem'), '--tls-key', at('cert.pem')])
    refused(['--data', at('l'), '--tls-cert', at('cert.pem')])
})

const basic = (user, word) => ({ Authorization: `Basic ${Buffer.from(`${user}:${word}`).toString('base64')}` })

await test('--listen with all of them: over TLS, with the password', async () => {
    await withServer({ data: at('tls'), options: ['--listen', outside, '--name', 'dripstone.test', ...all] }, async (server) => {
        match(server.base, /^https:\/\/dripstone\.test:\d+\/$/)
        const { port } = new URL(server.base)
        const base = `https://${outside}:${port}/`
        for (const user of ['', 'anybody']) strictEqual((await ask(base, 'GET', '/', { headers: basic(user, 'by the mill pond') })).status, 200)
        strictEqual((await ask(base, 'GET', '/', { headers: { ...basic('', 'by the mill pond'), Host: `dripstone.test:${port}` } })).status, 200)
        strictEqual((await ask(base, 'GET', '/', { headers: { ...basic('', 'by the mill pond'), Host: `elsewhere.example:${port}` } })).status, 421)
        const body = JSON.stringify({ dripstone: 1, title: 'over TLS', places: [], points: [] })
        strictEqual((await ask(base, 'POST', '/api/jobs', { headers: basic('', 'by the mill pond'), body })).status, 201)
        const wrong = [{}, basic('', ''), basic('', 'by the mill pon'), basic('', 'by the mill pond '), basic('', 'By the mill pond'), basic('by the mill pond', ''), { Authorization: 'Basic !!!' }, { Authorization: 'Basic' },
            { Authorization: `Bearer ${Buffer.from(':by the mill pond').toString('base64')}` }, basic('', 'by the mill pondby the mill pond')]
        const tries = wrong.flatMap((headers) => [['GET', '/'], ['GET', '/api/jobs'], ['POST', '/api/jobs'], ['POST', '/api/check']].map((where) => [headers, ...where]))
        await Promise.all(tries.map(async ([headers, method, path]) => {
            const answer = await ask(base, method, path, { headers, body: method === 'POST' ? body : undefined })
            strictEqual(answer.status, 401, `${JSON.stringify(headers)} ${method} ${path}`)
            match(answer.headers['www-authenticate'], /^Basic realm=/)
            ok(!answer.text.includes('over TLS') && !answer.text.includes('<html'))
        }))
        const { jobs } = JSON.parse((await ask(base, 'GET', '/api/jobs', { headers: basic('', 'by the mill pond') })).text)
        strictEqual(jobs.length, 1)
        await ask(`http://${outside}:${port}/`, 'GET', '/', { headers: basic('', 'by the mill pond') }).then(({ status }) => notStrictEqual(status, 200), () => {})
        const crowd = await Promise.all(Array.from({ length: 700 }, () => isKept(outside, port)))
        const kept = crowd.filter(({ held }) => held).length
        ok(kept > 400 && kept <= 500, `${kept} connections of one address`)
        crowd.forEach(({ socket }) => socket.destroy())
        for (const version of ['TLSv1', 'TLSv1.1']) {
            const { tlsVersion } = await tlsTo(outside, port, version)
            strictEqual(tlsVersion, undefined, version)
        }
        strictEqual((await tlsTo(outside, port, 'TLSv1.3')).tlsVersion, 'TLSv1.3')
    })
})

// { socket, held } of a connection that says nothing: whether it is still there after half a second.
function isKept(host, port) {
    return new Promise((done) => {
        const socket = connect({ host, port: Number(port) })
        let held = true
        for (const end of ['close', 'error', 'end']) socket.on(end, () => { held = false })
        setTimeout(() => done({ socket, held }), 500)
    })
}

// { tlsVersion } of a connection that will speak this version only; undefined when there is none.
function tlsTo(host, port, version) {
    return new Promise((done) => {
        const socket = secureConnect({ host, port: Number(port), rejectUnauthorized: false, minVersion: version, maxVersion: version, ciphers: 'DEFAULT@SECLEVEL=0' }, () => {
            done({ tlsVersion: socket.getProtocol() })
            socket.destroy()
        })
        socket.on('error', () => done({}))
    })
}

await test('on this machine alone a password may be asked for too', async () => {
    await withServer({ data: at('own'), options: ['--password-file', password] }, async (server) => {
        strictEqual((await ask(server.base, 'GET', '/')).status, 401)
        strictEqual((await ask(server.base, 'GET', '/', { headers: basic('x', 'by the mill pond') })).status, 200)
    })
})

await test('who guesses waits, and nobody else does', async () => {
    await withServer({ data: at('guessed'), options: ['--password-file', password] }, async (server) => {
        const start = performance.now()
        const guesses = Array.from({ length: 300 }, async (_, i) => {
            const { status } = await ask(server.base, i % 2 ? 'GET' : 'POST', '/api/jobs', { headers: basic('', `guess ${i}`), body: i % 2 ? undefined : '{}' })
            return { status, ms: performance.now() - start }
        })
        for (let i = 0; i < 5; i++) strictEqual((await ask(server.base, 'GET', '/api/jobs', { headers: basic('', 'by the mill pond') })).status, 200)
        strictEqual((await ask(server.base, 'GET', '/')).status, 401)
        const others = performance.now() - start
        const told = await Promise.all(guesses)
        ok(told.every(({ status }) => status === 401))
        const first = Math.min(...told.map(({ ms }) => ms))
        ok(first > 900 && others < first, `the first guess was answered after ${first} ms, others after ${others} ms`)
    })
})

await test('it ends while somebody waits for a guess', async () => {
    let told
    await withServer({ data: at('guessed'), options: ['--password-file', password] }, async (server) => {
        told = ask(server.base, 'GET', '/', { headers: basic('', 'a wrong guess') }).catch(({ code }) => code)
        await ask(server.base, 'GET', '/')
        await new Promise((done) => setTimeout(done, 100))
    })
    await told
})

// A job whose answer takes many seconds: rooms as full of partitions as a room may be.
function slowJob() {
    const features = Array.from({ length: 190 }, (_, i) => ({ kind: 'partition', from_m: [0.1 + (i % 19) * 1.5, 0.2 + Math.floor(i / 19) * 2.9], to_m: [0.9 + (i % 19) * 1.5, 0.9 + Math.floor(i / 19) * 2.9], height_m: 2 }))
    const bath = { kind: 'bath', outline_m: [[1, 1], [2.7, 1], [2.7, 1.7], [1, 1.7]] }
    const plan = { outline_m: [[0, 0], [30, 0], [30, 30], [0, 30]], height_m: 2.4, features: [...features, bath] }
    const places = Array.from({ length: 200 }, (_, i) => ({ id: `b${i}`, name: 'Bath', kind: 'bathroom', setting: 'indoors', seen: ['none'], plan }))
    const points = places.map(({ id }, i) => ({ id: `P${i}`, place: id, name: 'Fan', kind: 'fan', at_m: [15, 15, 2], marked: [{ ip: 'IP44' }] }))
    return JSON.stringify({ dripstone: 1, title: 'Slow', rules: ['gb-2022'], date: '2024-05-04', places, points })
}

await test('a second signal ends it at once, whatever it is doing', async () => {
    const server = await startServer({ data: at('slow') })
    const told = ask(server.base, 'POST', '/api/check', { body: slowJob() }).then(({ status }) => status, ({ code }) => code)
    await new Promise((done) => setTimeout(done, 1500))
    process.kill(server.pid, 'SIGTERM')
    await new Promise((done) => setTimeout(done, 300))
    const start = performance.now()
    process.kill(server.pid, 'SIGTERM')
    match(String(await told), /ECONNRESET|EPIPE/)
    ok(performance.now() - start < 10000, `${performance.now() - start} ms`)
    await server.kill()
})

await test('without --listen nobody else can reach it', async () => {
    await withServer({ data: at('loop') }, async (server) => {
        const { port } = new URL(server.base)
        await ask(`http://${outside}:${port}/`, 'GET', '/').then(() => { throw new Error(`${outside} was answered`) }, ({ code }) => ok(code, code))
    })
})

symlinkSync(at('loop'), at('link'))
await test('a folder may be a link', async () => withServer({ data: at('link') }, async (server) => strictEqual((await ask(server.base, 'GET', '/api/jobs')).status, 200)))

rmSync(home, { recursive: true })
finish()
