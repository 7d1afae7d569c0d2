// SPDX-License-Identifier: MIT
//
// The server as a whole: node bench/serve_bench.mjs PROGRAM. Reads of a small job a second (wrk, 16 connections), the
// time of a durable save, and the memory of the server with a job of 40,000 points saved and read. Medians of five runs;
// of saves, of 300.

import { readFileSync } from 'node:fs'
import { execFileSync } from 'node:child_process'
import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

const RUNS = 5, SAVES = 300, POINTS = 40000, POINTS_A_PLACE = 50
const root = fileURLToPath(new URL('..', import.meta.url))
process.env.DRIPSTONE = resolve(process.argv[2] ?? `${root}/build/release/dripstone`)
const { startServer } = await import('../tests/support/serve.mjs')

const middle = (list) => list.toSorted((a, b) => a - b)[list.length >> 1]
const nearWorst = (list) => list.toSorted((a, b) => a - b)[Math.floor(list.length * 0.99)]

// As bench/check_bench makes its jobs.
function largeJob() {
    const places = Array.from({ length: POINTS / POINTS_A_PLACE }, (_, i) =>
        ({ id: `place-${i}`, name: `Place number ${i}`, kind: 'workshop', setting: 'indoors', seen: ['none', 'wood-dust'] }))
    const points = Array.from({ length: POINTS }, (_, i) => ({
        id: `P${i}`, place: `place-${Math.floor(i / POINTS_A_PLACE)}`, name: `Point ${i} by the door`, kind: 'socket-outlet', height_m: 1.2,
        supply: { volts: 230, current: 'ac', selv: false, rcd_ma: 30 }, marked: [{ ip: i % 10 ? 'IP44' : 'IP66/IP67 IK10' }]
    }))
    return JSON.stringify({ dripstone: 1, title: 'Generated', date: '2024-05-04', rules: ['gb-2022'], places, points }, null, 1)
}

async function send(method, url, body, tag) {
    const answer = await fetch(url, { method, body, headers: tag ? { 'If-Match': tag } : {} })
    if (!answer.ok) throw new Error(`${method} ${url}: ${answer.status} ${await answer.text()}`)
    const text = await answer.text()
    return { tag: answer.headers.get('ETag'), where: answer.headers.get('Location'), text }
}

function memory(pid) {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8')
    const mb = (key) => Number(new RegExp(`${key}:\\s+(\\d+) kB`).exec(status)[1]) / 1024
    return { now: mb('VmRSS'), most: mb('VmHWM') }
}

// Of all its time so far, in the program and in the system; a hundredth of a second is the unit.
const processorMs = (pid) => readFileSync(`/proc/${pid}/stat`, 'utf8').replace(/^.*\) /, '').split(' ').slice(11, 13).reduce((sum, ticks) => sum + 10 * Number(ticks), 0)

// { perSecond, us }: the second is what one read takes of the processor, which other work on the machine changes little.
function read(url, pid) {
    const before = processorMs(pid)
    const said = execFileSync('wrk', ['-t1', '-c16', '-d4s', url], { encoding: 'utf8' })
    if (/Non-2xx/.test(said)) throw new Error(said)
    const count = Number(/(\d+) requests in/.exec(said)[1])
    return { perSecond: Number(/Requests\/sec:\s+([\d.]+)/.exec(said)[1]), us: (processorMs(pid) - before) * 1000 / count }
}

async function timeSaves(url, tag, text) {
    const times = []
    for (let i = 0; i < SAVES; i++) {
        const body = text.replace('"title": "', `"title": "${i} `)
        const start = performance.now()
        tag = (await send('PUT', url, body, tag)).tag
        times.push(performance.now() - start)
    }
    return times
}

const mb = (value) => `${value.toFixed(1)} MB`
const server = await startServer()
try {
    const at = (path) => new URL(path, server.base).href
    const small = readFileSync(`${root}/examples/mill-house.json`, 'utf8')
    const added = await send('POST', at('api/jobs'), small)
    const job = at(added.where)
    console.log(`at rest: ${mb(memory(server.pid).now)}`)
    const reads = Array.from({ length: RUNS }, () => read(job, server.pid))
    const rates = reads.map(({ perSecond }) => perSecond)
    console.log(`reads of a job of ${(small.length / 1024).toFixed(1)} kB, 16 connections: ${Math.round(middle(rates)).toLocaleString('en')} a second (${rates.map((n) => Math.round(n / 1000)).join(', ')} thousand)`)
    console.log(`processor of the server a read: ${middle(reads.map(({ us }) => us)).toFixed(1)} us`)
    const times = await timeSaves(job, added.tag, small)
    console.log(`durable save of it: median ${middle(times).toFixed(2)} ms, 99 of 100 under ${nearWorst(times).toFixed(2)} ms`)
    const text = largeJob()
    let start = performance.now()
    const large = await send('POST', at('api/jobs'), text)
    const posted = performance.now() - start
    start = performance.now()
    const got = await send('GET', at(large.where))
    if (got.text !== text) throw new Error('the large job came back changed')
    console.log(`40,000 points, ${mb(text.length / 1048576)}: saved in ${posted.toFixed(0)} ms, read in ${(performance.now() - start).toFixed(0)} ms`)
    await send('PUT', at(large.where), text, large.tag)
    await send('GET', at(large.where))
    const { now, most } = memory(server.pid)
    console.log(`memory with it open: ${mb(now)}; at most, while it was saved: ${mb(most)}`)
} finally {
    await server.stop()
}
