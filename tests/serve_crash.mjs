// SPDX-License-Identifier: MIT
//
// What was acknowledged is kept: node tests/serve_crash.mjs [HOLD] [--rounds N]
//
// The server is killed (kill -9) 200 times while several clients save; after each start every job must stand at the last
// version that was acknowledged or at one sent after it, byte for byte, and at the end every acknowledged version of all
// rounds must be there. Then: a disk that is full, files that may not grow, a database that another program holds (HOLD,
// build/debug/tests/store_hold), one that is damaged, two servers on one folder, and an end by SIGTERM during saves.

import { existsSync, mkdtempSync, mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { spawn, spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ownProgram, startServer } from './support/serve.mjs'

const words = process.argv.slice(2)
const at = words.indexOf('--rounds')
const ROUNDS = at < 0 ? 200 : Number(words[at + 1])
const hold = words[0] && words[0] !== '--rounds' ? words[0] : undefined
const CLIENTS = 4
const home = mkdtempSync(join(tmpdir(), 'serve-crash-'))
const counts = { passed: 0, failed: 0 }

// Those that a failed test leaves behind are ended after it.
const running = new Set()

async function start(options) {
    const server = await startServer(options)
    running.add(server)
    return server
}

async function test(name, body) {
    try {
        await body()
        counts.passed++
        console.log(`ok ${name}`)
    } catch (error) {
        counts.failed++
        console.log(`not ok ${name}\n  ${error.message}`)
    }
    await Promise.all([...running].map((server) => server.kill()))
    running.clear()
}

function expect(holds, why) {
    if (!holds) throw new Error(why)
}

/* --- asking ------------------------------------------------------------------------------------------------------- */

async function ask(server, method, path, { body, tag } = {}) {
    const answer = await fetch(new URL(path, server.base), { method, body, headers: tag ? { 'If-Match': tag } : {} })
    const text = await answer.text()
    return { status: answer.status, tag: answer.headers.get('ETag'), where: answer.headers.get('Location')?.slice(1), text }
}

// No two texts are alike, and their size goes over many pages of the database now and then.
const textOf = (client, count) => JSON.stringify({ dripstone: 1, title: `Client ${client}, save ${count}`, rules: ['iec'], places: [], points: [], note: 'x'.repeat(count % 7 === 0 ? 60000 : (count * 37) % 900) })

async function addJob(server, text = textOf(0, 0)) {
    const { status, where, tag } = await ask(server, 'POST', 'api/jobs', { body: text })
    expect(status === 201, `a job could not be added: ${status}`)
    return { where, tag, text }
}

const versionOf = (tag) => Number(/^"(\d+)-/.exec(tag)[1])

/* --- killed ------------------------------------------------------------------------------------------------------- */

// A client saves on and on; job.sent are the texts since the last acknowledged one.
async function saveUntilKilled(server, job, number) {
    for (;;) {
        const text = textOf(number, job.count++)
        job.sent.push(text)
        const answer = await ask(server, 'PUT', job.where, { body: text, tag: job.tag }).catch(() => undefined)
        if (!answer) return
        expect(answer.status === 200, `a save was answered with ${answer.status}: ${answer.text}`)
        job.kept.set(versionOf(answer.tag), text)
        Object.assign(job, { tag: answer.tag, text, sent: [] })
    }
}

// After a start: nothing acknowledged is lost, nothing is there that was never sent.
async function compareJob(server, job) {
    const { status, text, tag } = await ask(server, 'GET', job.where)
    expect(status === 200, `${job.where} is answered with ${status}`)
    const same = tag === job.tag && text === job.text
    const later = versionOf(tag) === versionOf(job.tag) + 1 && job.sent.includes(text)
    expect(same || later, `${job.where} was acknowledged as ${job.tag} and is ${tag}`)
    job.kept.set(versionOf(tag), text)
    Object.assign(job, { tag, text, sent: [] })
    return later
}

await test(`killed ${ROUNDS} times during saves`, async () => {
    const data = join(home, 'killed')
    let server = await start({ data })
    const jobs = []
    for (let i = 0; i < CLIENTS; i++) jobs.push({ ...(await addJob(server, textOf(i, 0))), count: 1, sent: [], kept: new Map() })
    let unheard = 0
    for (let round = 0; round < ROUNDS; round++) {
        const clients = jobs.map((job, i) => saveUntilKilled(server, job, i))
        await new Promise((done) => setTimeout(done, 5 + Math.random() * 40))
        await server.kill()
        await Promise.all(clients)
        server = await start({ data })
        for (const job of jobs) unheard += await compareJob(server, job)
    }
    let versions = 0
    for (const job of jobs) {
        for (const [version, text] of job.kept) {
            const found = await ask(server, 'GET', `${job.where}/versions/${version}`)
            expect(found.text === text, `version ${version} of ${job.where} is not what was acknowledged`)
            versions++
        }
    }
    await server.stop()
    expect(versions > ROUNDS, `only ${versions} saves were made`)
    console.log(`${versions} acknowledged versions are there; ${unheard} more were saved and could not say so`)
})

/* --- no room ------------------------------------------------------------------------------------------------------ */

// Saves until there is no room, and says how it was told; then reads the last one that was acknowledged.
async function fillUp(server) {
    const job = await addJob(server)
    const note = 'y'.repeat(40000)
    for (let i = 0; i < 200; i++) {
        const text = JSON.stringify({ dripstone: 1, title: `Save ${i}`, rules: ['iec'], places: [], points: [], note })
        const answer = await ask(server, 'PUT', job.where, { body: text, tag: job.tag })
        if (answer.status !== 200) return { ...job, refused: answer }
        Object.assign(job, { tag: answer.tag, text })
    }
    throw new Error('there was room for everything')
}

async function expectWhole(data, begin) {
    let server = await begin()
    const full = await fillUp(server)
    expect(full.refused.status === 507, `no room was answered with ${full.refused.status}: ${full.refused.text}`)
    const read = await ask(server, 'GET', full.where)
    expect(read.status === 200 && read.text === full.text, `after that the job was answered with ${read.status}`)
    await server.kill()
    server = await begin()
    const again = await ask(server, 'GET', full.where)
    expect(again.status === 200 && again.text === full.text, `after a new start the job was answered with ${again.status}`)
    await server.stop()
    return full
}

await test('files that may not grow', async () => {
    const data = join(home, 'limited')
    const program = join(home, 'limited.sh')
    writeFileSync(program, `#!/bin/bash\nulimit -f 1500\nexec '${ownProgram}' "$@"\n`, { mode: 0o755 })
    const full = await expectWhole(data, () => start({ program, data }))
    const server = await start({ data })
    const saved = await ask(server, 'PUT', full.where, { body: textOf(9, 9), tag: full.tag })
    expect(saved.status === 200, `with room again a save was answered with ${saved.status}`)
    await server.stop()
})

const small = join(home, 'small')
mkdirSync(small)
if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', small]).status === 0) {
    await test('a disk that is full', () => expectWhole(small, () => start({ data: small })))
    spawnSync('umount', [small])
} else {
    console.log('a disk that is full: not tried, a small one cannot be mounted here')
}

/* --- others ------------------------------------------------------------------------------------------------------- */

if (hold && existsSync(hold)) {
    await test('a database that another program holds', async () => {
        const server = await start()
        const job = await addJob(server)
        const holder = spawn(hold, [join(server.data, 'jobs.sqlite')], { stdio: ['pipe', 'pipe', 'inherit'] })
        await new Promise((done) => holder.stdout.once('data', done))
        const locked = await ask(server, 'PUT', job.where, { body: textOf(1, 1), tag: job.tag })
        expect(locked.status === 503, `a save was answered with ${locked.status}`)
        const read = await ask(server, 'GET', job.where)
        expect(read.status === 200 && read.text === job.text, `reading was answered with ${read.status}`)
        holder.stdin.end()
        await new Promise((done) => holder.once('exit', done))
        const saved = await ask(server, 'PUT', job.where, { body: textOf(1, 1), tag: job.tag })
        expect(saved.status === 200, `after it a save was answered with ${saved.status}`)
        await server.stop()
    })
} else {
    console.log('a database that another program holds: not tried, there is no program to hold it')
}

await test('two servers on one folder', async () => {
    const one = await start()
    const two = await start({ data: one.data })
    const job = await addJob(one)
    expect((await ask(two, 'GET', job.where)).text === job.text, 'the other does not see the job')
    expect((await ask(one, 'GET', job.where)).text === job.text, 'the job is not there')
    const saved = await ask(two, 'PUT', job.where, { body: textOf(2, 2), tag: job.tag })
    expect(saved.status === 200, `the other answers a save with ${saved.status}`)
    expect((await ask(one, 'GET', job.where)).text === textOf(2, 2), 'the first still shows what was there before')
    const late = await ask(one, 'PUT', job.where, { body: textOf(3, 3), tag: job.tag })
    expect(late.status === 412 && late.tag === saved.tag, `a save of what is no more was answered with ${late.status}`)
    await two.kill()
    await one.stop()
})

await test('a file that is no database', async () => {
    const data = join(home, 'other')
    mkdirSync(data)
    writeFileSync(join(data, 'jobs.sqlite'), 'a shopping list, and not a short one: '.repeat(100))
    const { status, stderr } = spawnSync(ownProgram, ['serve', '--port', '0', '--data', data], { encoding: 'utf8', timeout: 20000 })
    expect(status === 2 && /not a database/.test(stderr), `status ${status}: ${stderr}`)
    expect(readFileSync(join(data, 'jobs.sqlite'), 'utf8').startsWith('a shopping list'), 'the file was changed')
})

await test('a database cut short', async () => {
    const data = join(home, 'cut')
    const first = await start({ data })
    const job = await addJob(first, JSON.stringify({ dripstone: 1, title: 'Long', rules: ['iec'], places: [], points: [], note: 'z'.repeat(200000) }))
    await first.stop()
    truncateSync(join(data, 'jobs.sqlite'), 60000)
    const server = await start({ data }).catch((error) => ({ refused: error.message }))
    if (server.refused) return expect(/malformed|database/.test(server.refused), server.refused)
    const read = await ask(server, 'GET', job.where)
    expect(read.status === 500 && JSON.parse(read.text).problem, `what is cut off was answered with ${read.status}`)
    await server.stop()
})

await test('ended kindly during saves', async () => {
    const data = join(home, 'ended')
    const first = await start({ data })
    const job = { ...(await addJob(first)), count: 1, sent: [], kept: new Map() }
    const client = saveUntilKilled(first, job, 0)
    await new Promise((done) => setTimeout(done, 100))
    await first.stop()
    await client
    const server = await start({ data })
    await compareJob(server, job)
    await server.stop()
})

rmSync(home, { recursive: true, force: true })
console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed > 0 ? 1 : 0
