// SPDX-License-Identifier: MIT
//
// Papers, labels and spreadsheets ordered of the server (docs/api.md): node tests/serve_papers.mjs [NAME …]
//
// A file that is ordered has the bytes that the command line writes. What takes long holds up nobody else; who goes away
// has their paper stopped; a server that ends takes what is under way with it.

import { match, ok, strictEqual } from 'node:assert'
import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { Agent, request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { ask } from './support/http.mjs'
import { finish, test } from './support/judge.mjs'
import { ownProgram, startServer } from './support/serve.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const pathOf = (name) => join(root, `examples/${name}.json`)
const mill = readFileSync(pathOf('mill-house'))
const server = await startServer()
const order = (path, body, more = {}) => ask(server.base, 'POST', `/api/${path}`, { body, ...more })
const pause = (ms) => new Promise((done) => { setTimeout(done, ms) })

// The mill house so often that its papers take seconds.
function manyPoints(copies) {
    const job = { ...JSON.parse(mill), places: [], points: [] }
    const once = JSON.parse(mill)
    for (let copy = 0; copy < copies; copy++) {
        job.places.push(...once.places.map((place) => ({ ...place, id: `${place.id}${copy}` })))
        job.points.push(...once.points.map((point) => ({ ...point, id: `${point.id}.${copy}`, place: `${point.place}${copy}` })))
    }
    return JSON.stringify(job)
}

const long = manyPoints(150)
const endless = manyPoints(1500)

function byProgram(args, status = 0) {
    const result = spawnSync(ownProgram, [...args, '-o', '-'], { maxBuffer: 1 << 26 })
    strictEqual(result.status, status, result.stderr.toString())
    return result.stdout
}

function refused(answer, status, said) {
    strictEqual(answer.status, status, answer.text)
    strictEqual(answer.headers['content-type'], 'application/json')
    const { problem, remedy } = JSON.parse(answer.text)
    ok(problem && remedy, answer.text)
    match(problem, said)
}

// Processes that set papers now.
const childrenOf = (pid) => readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(/\s+/).filter(Boolean)

async function until(holds, seconds = 10) {
    for (const end = Date.now() + seconds * 1000; Date.now() < end; await pause(20)) if (await holds()) return
    throw new Error(`not so after ${seconds} s`)
}

/* --- what comes back ---------------------------------------------------------------------------------------------- */

const pdf = 'application/pdf'
const xlsx = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'
const files = [
    ['paper', ['paper'], pdf],
    ['paper?for=client', ['paper', '--for', 'client'], pdf],
    ['paper?for=fitter&size=letter', ['paper', '--for', 'fitter', '--size', 'letter'], pdf],
    ['paper?for=inspector', ['paper', '--for', 'inspector'], pdf],
    ['labels', ['labels'], pdf],
    ['labels?grid=2x7&label=99.1x38.1&skip=3', ['labels', '--grid', '2x7', '--label', '99.1x38.1', '--skip', '3'], pdf],
    ['sheet', ['sheet'], xlsx],
    ['sheet?for=buyer', ['sheet', '--for', 'buyer'], xlsx]
]
for (const [address, args, type] of files) {
    await test(`${address} has the bytes of the command line`, async () => {
        for (const name of ['mill-house', 'bath-house']) {
            const answer = await order(address, readFileSync(pathOf(name)))
            strictEqual(answer.status, 200, answer.text.slice(0, 300))
            strictEqual(answer.headers['content-type'], type)
            match(answer.headers['content-disposition'], /^attachment; filename="[\w-]+\.(pdf|xlsx)"$/)
            const [command, ...options] = args
            ok(answer.bytes.equals(byProgram([command, pathOf(name), ...options])), name)
        }
    })
}

await test('changes between two versions, or two editions', async () => {
    const at = (name) => join(root, `tests/cases/differ-use/${name}.json`)
    const two = Buffer.concat([readFileSync(at('before')), Buffer.of(0x1e), readFileSync(at('after'))])
    const answer = await order('changes', two)
    strictEqual(answer.status, 200, answer.text.slice(0, 300))
    ok(answer.bytes.equals(byProgram(['differ', at('before'), at('after')], 1)))
    const editions = await order('changes?before=gb-2018&after=gb-2022&size=letter', Buffer.concat([mill, Buffer.of(0x1e), mill]))
    ok(editions.bytes.equals(byProgram(['differ', pathOf('mill-house'), '--before', 'gb-2018', '--after', 'gb-2022', '--size', 'letter'], 1)))
    refused(await order('changes', mill), 422, /two documents/)
    refused(await order('changes', Buffer.concat([mill, Buffer.of(0x1e)])), 422, /empty/)
    refused(await order('changes?before=gb-1066', Buffer.concat([mill, Buffer.of(0x1e), mill])), 422, /no rule pack/)
})

await test('what cannot be ordered is refused with a reason', async () => {
    refused(await order('paper?for=nobody', mill), 422, /no such reader/)
    refused(await order('paper?size=a5', mill), 422, /no such size/)
    refused(await order('labels?label=70', mill), 422, /measure/)
    refused(await order('labels?grid=9x9', mill), 422, /do not fit/)
    refused(await order('sheet?size=a4', mill), 400, /name that this order does not take/)
    refused(await order('paper?for=client&for=buyer', mill), 400, /twice/)
    refused(await order('paper?for=%zz', mill), 400, /ill-formed/)
    refused(await order(`paper?for=${'x'.repeat(200)}`, mill), 400, /longer/)
    refused(await ask(server.base, 'GET', '/api/paper'), 405, /method/)
    refused(await order('paper', mill, { headers: { Origin: 'http://elsewhere.example' } }), 403, /another page/)
    const unreadable = await order('paper', '{"dripstone": 2}')
    refused(unreadable, 422, /no job document/)
    strictEqual(JSON.parse(unreadable.text).line, 1)
    refused(await order('labels', ''), 422, /empty/)
})

await test('options never reach a command line', async () => {
    refused(await order('paper?for=--output', mill), 422, /no such reader/)
    refused(await order('labels?grid=3x8%00&label=-o', mill), 422, /measure/)
})

/* --- side by side ------------------------------------------------------------------------------------------------- */

await test('others are answered while a long paper is set', async () => {
    const paper = order('paper', long)
    await until(() => childrenOf(server.pid).length)
    let answered = 0
    let slowest = 0
    while (childrenOf(server.pid).length) {
        const begun = performance.now()
        strictEqual((await ask(server.base, 'GET', '/api/jobs')).status, 200)
        slowest = Math.max(slowest, performance.now() - begun)
        answered++
        await pause(10)
    }
    strictEqual((await paper).status, 200)
    ok(answered >= 10, `${answered} answers`)
    ok(slowest < 500, `${slowest} ms`)
})

await test('more than four at once are told to come again', async () => {
    const papers = Array.from({ length: 6 }, () => order('paper', long))
    const answers = await Promise.all(papers)
    strictEqual(answers.filter(({ status }) => status === 200).length, 4)
    const later = answers.filter(({ status }) => status === 503)
    strictEqual(later.length, 2)
    for (const answer of later) {
        refused(answer, 503, /busy with other papers/)
        ok(Number(answer.headers['retry-after']) > 0)
    }
    strictEqual((await order('paper?for=buyer', mill)).status, 200)
})

await test('a paper that nobody waits for is stopped, and makes room', async () => {
    const sent = []
    for (let i = 1; i <= 4; i++) {
        const one = request(new URL('/api/paper', server.base), { method: 'POST', agent: false })
        one.on('error', () => {})
        one.end(endless)
        sent.push(one)
        await until(() => childrenOf(server.pid).length === i)
    }
    refused(await order('paper?for=buyer', mill), 503, /busy/)
    sent.forEach((one) => one.destroy())
    await until(() => !childrenOf(server.pid).length, 5)
    strictEqual((await order('paper?for=buyer', mill)).status, 200)
})

await test('several orders over one connection', async () => {
    const agent = new Agent({ keepAlive: true, maxSockets: 1 })
    for (const address of ['paper?for=buyer', 'sheet?for=buyer', 'paper?for=nobody', 'labels', 'paper?for=buyer']) {
        const answer = await order(address, mill, { agent })
        strictEqual(answer.status, address.endsWith('nobody') ? 422 : 200)
    }
    agent.destroy()
})

/* --- ends --------------------------------------------------------------------------------------------------------- */

await test('a process that dies is said, and the server goes on', async () => {
    const paper = order('paper', long)
    await until(() => childrenOf(server.pid).length)
    for (const pid of childrenOf(server.pid)) process.kill(Number(pid), 'SIGSEGV')
    refused(await paper, 500, /could not be set/)
    strictEqual((await order('paper?for=buyer', mill)).status, 200)
})

await test('a server that ends takes what is under way with it', async () => {
    const other = await startServer()
    const paper = ask(other.base, 'POST', '/api/paper', { body: long }).catch((error) => error)
    await until(() => childrenOf(other.pid).length)
    const [child] = childrenOf(other.pid)
    const begun = performance.now()
    await other.stop()
    ok(performance.now() - begun < 2000)
    ok((await paper) instanceof Error)
    await until(() => !readdirSync('/proc').includes(child))
})

await test('without what sets papers, all else works', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'dripstone-bare-'))
    copyFileSync(ownProgram, join(folder, 'dripstone'))
    const other = await startServer({ program: join(folder, 'dripstone') })
    refused(await ask(other.base, 'POST', '/api/paper', { body: mill }), 500, /could not be set/)
    strictEqual((await ask(other.base, 'GET', '/api/jobs')).status, 200)
    await other.stop()
    rmSync(folder, { recursive: true })
})

await server.stop()
finish()
