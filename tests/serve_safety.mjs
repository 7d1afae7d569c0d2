// SPDX-License-Identifier: MIT
//
// The server against other sites' pages, malformed requests, crowds and large bodies: node tests/serve_safety.mjs [NAME …]

import { match, ok, strictEqual } from 'node:assert'
import { readFileSync } from 'node:fs'
import { connect } from 'node:net'
import { gzipSync } from 'node:zlib'
import { ask, send } from './support/http.mjs'
import { finish, test } from './support/judge.mjs'
import { ownProgram, startServer } from './support/serve.mjs'

const MB = 1 << 20
const job = (title) => JSON.stringify({ dripstone: 1, title, rules: ['iec'], places: [], points: [] })
const server = await startServer()
const own = new URL(server.base)
const to = (method, path, more) => ask(server.base, method, path, more)

const statusOf = (text) => Number(/^HTTP\/1\.[01] (\d+)/.exec(text)?.[1] ?? 0)
const isWell = async () => strictEqual((await to('GET', '/api/jobs')).status, 200)

async function titles() {
    return JSON.parse((await to('GET', '/api/jobs')).text).jobs.map(({ title }) => title)
}

/* --- who asks ----------------------------------------------------------------------------------------------------- */

await test('the names of this machine are known', async () => {
    for (const host of ['127.0.0.1', 'localhost', '[::1]']) {
        strictEqual((await to('GET', '/', { headers: { Host: `${host}:${own.port}` } })).status, 200, host)
    }
})

await test('a name that leads here and is not ours is answered 421', async () => {
    const names = ['elsewhere.example', `elsewhere.example:${own.port}`, '127.0.0.1', 'localhost', `127.0.0.1:${Number(own.port) ^ 1}`, `127.0.0.1:${own.port}.elsewhere.example`,
        `elsewhere.example@127.0.0.1:${own.port}`, `127.0.0.2:${own.port}`, `127.0.0.1:${own.port}:${own.port}`, `localhost.:${own.port}`, `xlocalhost:${own.port}`, `localhost:0${own.port}`]
    for (const Host of names) {
        for (const [method, path] of [['GET', '/'], ['GET', '/api/jobs'], ['POST', '/api/jobs'], ['POST', '/api/check']]) {
            const answer = await to(method, path, { headers: { Host }, body: method === 'POST' ? job('by name') : undefined })
            ok(answer.status === 421, `${Host} ${path}: ${answer.status}`)
        }
    }
    ok(!(await titles()).includes('by name'))
})

await test('a request without a Host is refused', async () => {
    strictEqual(statusOf((await send(server.base, 'GET /api/jobs HTTP/1.1\r\n\r\n')).text), 400)
    strictEqual(statusOf((await send(server.base, 'GET /api/jobs HTTP/1.0\r\n\r\n')).text), 421)
    strictEqual(statusOf((await send(server.base, 'GET /api/jobs HTTP/1.1\r\nHost:\r\n\r\n')).text), 421)
})

const FOREIGN = [{ Origin: 'http://elsewhere.example' }, { Origin: 'null' }, { Origin: '' }, { Origin: `http://127.0.0.1:${Number(own.port) ^ 1}` }, { Origin: 'http://127.0.0.1' }, { Origin: `${own.origin}/` },
    { Origin: `${own.origin}.elsewhere.example` }, { Origin: `ftp://${own.host}` }, { Origin: own.host }, { 'Sec-Fetch-Site': 'cross-site' }, { 'Sec-Fetch-Site': 'same-site' }, { 'Sec-Fetch-Site': 'SAME-ORIGIN' }, { 'Sec-Fetch-Site': '' },
    { Origin: own.origin, 'Sec-Fetch-Site': 'cross-site' }]

await test("another site's page may neither read nor write", async () => {
    const { headers: { location, etag } } = await to('POST', '/api/jobs', { body: job('mine') })
    for (const headers of FOREIGN) {
        const tries = [['GET', '/api/jobs'], ['GET', location], ['GET', `${location}/versions/1`], ['POST', '/api/jobs'], ['PUT', location], ['DELETE', location], ['POST', '/api/check'], ['OPTIONS', location]]
        for (const [method, path] of tries) {
            const body = /PUT|POST/.test(method) ? job('foreign') : undefined
            const answer = await to(method, path, { headers: { ...headers, 'If-Match': etag }, body })
            strictEqual(answer.status, 403, `${JSON.stringify(headers)} ${method} ${path}`)
            ok(!answer.text.includes('mine'))
        }
    }
    ok(!(await titles()).includes('foreign'))
    strictEqual((await to('GET', location)).text, job('mine'))
})

await test('its own page and programs may', async () => {
    for (const headers of [{}, { Origin: own.origin }, { 'Sec-Fetch-Site': 'same-origin' }, { 'Sec-Fetch-Site': 'none' }, { Origin: own.origin, 'Sec-Fetch-Site': 'same-origin' }]) {
        strictEqual((await to('GET', '/api/jobs', { headers })).status, 200)
        strictEqual((await to('POST', '/api/jobs', { headers, body: job('own') })).status, 201)
    }
})

await test('a link from another site opens the page', async () => {
    strictEqual((await to('GET', '/', { headers: { 'Sec-Fetch-Site': 'cross-site', 'Sec-Fetch-Mode': 'navigate' } })).status, 200)
})

/* --- malformed ---------------------------------------------------------------------------------------------------- */

const head = (line, ...headers) => [line, `Host: ${own.host}`, ...headers, '', ''].join('\r\n')
const NOT_GOOD = {
    'no method': ' / HTTP/1.1\r\n\r\n',
    'no address': 'GET\r\n\r\n',
    'no version': head('GET /api/jobs'),
    'a version of the future': head('GET /api/jobs HTTP/9.9'),
    'a version that is none': head('GET /api/jobs FTP/1.1'),
    'a header without a colon': head('GET /api/jobs HTTP/1.1', 'nonsense'),
    'a whole address': head(`GET http://${own.host}/api/jobs HTTP/1.1`),
    'an asterisk': head('OPTIONS * HTTP/1.1'),
    'a blank in the address': head('GET /api/jobs x HTTP/1.1'),
    'a long address': head(`GET /${'a'.repeat(100000)} HTTP/1.1`),
    'a long query': head(`POST /api/read?mark=${'a'.repeat(100000)} HTTP/1.1`, 'Content-Length: 0'),
    'a long header': head('GET /api/jobs HTTP/1.1', `X: ${'a'.repeat(100000)}`),
    'many headers': head('GET /api/jobs HTTP/1.1', ...Array.from({ length: 20000 }, (_, i) => `X${i}: 1`)),
    'a long method': head(`${'A'.repeat(100000)} /api/jobs HTTP/1.1`),
    'a length below nothing': `${head('POST /api/jobs HTTP/1.1', 'Content-Length: -1')}${job('malformed')}`,
    'a length beyond all numbers': `${head('POST /api/jobs HTTP/1.1', 'Content-Length: 99999999999999999999999')}${job('malformed')}`,
    'a length that is none': `${head('POST /api/jobs HTTP/1.1', 'Content-Length: many')}${job('malformed')}`,
    'a chunk without its size': `${head('POST /api/jobs HTTP/1.1', 'Transfer-Encoding: chunked')}${job('malformed')}\r\n0\r\n\r\n`,
    'a chunk beyond all numbers': `${head('POST /api/jobs HTTP/1.1', 'Transfer-Encoding: chunked')}fffffffffffffffffff\r\n${job('malformed')}\r\n0\r\n\r\n`,
    'a chunk that is shorter than it says': `${head('POST /api/jobs HTTP/1.1', 'Transfer-Encoding: chunked')}3\r\n${job('malformed')}\r\n0\r\n\r\n`,
    'a strange coding': `${head('POST /api/jobs HTTP/1.1', 'Transfer-Encoding: gzip', `Content-Length: ${job('malformed').length}`)}${job('malformed')}`.replace(job('malformed'), 'x'),
    'the hello of TLS': Buffer.from('16030100c8010000c40303' + 'ab'.repeat(190), 'hex'),
    'zeros': Buffer.alloc(5000),
    'no end of line': 'G'.repeat(200000)
}

for (const [name, bytes] of Object.entries(NOT_GOOD)) {
    await test(`malformed: ${name}`, async () => {
        const { text } = await send(server.base, bytes, { waitMs: 700 })
        const status = statusOf(text)
        ok(status === 0 || status >= 400, text.slice(0, 300))
        await isWell()
    })
}

const chunked = (text) => `${text.length.toString(16)}\r\n${text}\r\n0\r\n\r\n`
const length = job('twofold').length
const TWOFOLD = {
    'a length and chunks': [['Transfer-Encoding: chunked', 'Content-Length: 4'], chunked(job('twofold'))],
    'chunks and a length': [['Content-Length: 4', 'Transfer-Encoding: chunked'], chunked(job('twofold'))],
    'two lengths': [[`Content-Length: ${length}`, 'Content-Length: 4'], job('twofold')],
    'the same length twice': [[`Content-Length: ${length}`, `content-length: ${length}`], job('twofold')],
    'two hosts': [['Host: elsewhere.example', `Content-Length: ${length}`], job('twofold')],
    'the same host twice': [[`Host: ${own.host}`, `Content-Length: ${length}`], job('twofold')],
    'two codings': [['Transfer-Encoding: chunked', 'Transfer-Encoding: identity'], chunked(job('twofold'))],
    'a blank before the colon': [['Transfer-Encoding : chunked', `Content-Length: ${length}`], job('twofold')],
    'a coding that hides chunks': [['Transfer-Encoding: xchunked', `Content-Length: ${length}`], job('twofold')],
    'a coding above chunks': [['Transfer-Encoding: gzip, chunked'], chunked(job('twofold'))]
}

for (const [name, [headers, body]] of Object.entries(TWOFOLD)) {
    await test(`said in two ways: ${name}`, async () => {
        const { text, closed } = await send(server.base, head('POST /api/jobs HTTP/1.1', ...headers) + body + head('GET /api/hidden HTTP/1.1'))
        strictEqual(statusOf(text), 400, text)
        match(text, /two ways/)
        ok(closed && (text.match(/HTTP\/1\.1/g) ?? []).length === 1, 'what follows was read')
    })
}

await test('chunks of HTTP 1.0 are refused', async () => {
    const { text, closed } = await send(server.base, head('POST /api/jobs HTTP/1.0', 'Transfer-Encoding: chunked', 'Connection: keep-alive') + chunked(job('twofold')))
    ok(statusOf(text) === 400 && closed, text)
})

await test('nothing said in two ways was kept', async () => ok(!(await titles()).includes('twofold')))

await test('a packed body is refused and not unpacked', async () => {
    for (const coding of ['gzip', 'deflate', 'br', 'GZIP', 'identity, gzip', '']) {
        const answer = await to('POST', '/api/jobs', { headers: { 'Content-Encoding': coding }, body: gzipSync(job('packed')) })
        strictEqual(answer.status, 415, `${coding}: ${answer.text}`)
    }
    strictEqual((await to('POST', '/api/jobs', { headers: { 'Content-Encoding': 'identity' }, body: job('unpacked') })).status, 201)
})

await test('nothing malformed was kept', async () => ok(!(await titles()).includes('malformed')))

await test('two requests in one packet get two answers, in order', async () => {
    const { text } = await send(server.base, head('GET /none HTTP/1.1') + head('GET /api/jobs HTTP/1.1', 'Connection: close'))
    strictEqual((text.match(/HTTP\/1\.1 404/g) ?? []).length, 1)
    strictEqual((text.match(/HTTP\/1\.1 200/g) ?? []).length, 1)
    ok(text.indexOf('404') < text.indexOf('200 OK'))
})

await test('a body that hides another request is one body', async () => {
    const hidden = head('POST /api/jobs HTTP/1.1', `Content-Length: ${job('hidden').length}`) + job('hidden')
    await send(server.base, head('POST /api/check HTTP/1.1', `Content-Length: ${hidden.length}`) + hidden)
    await send(server.base, head('GET / HTTP/1.1', `Content-Length: ${hidden.length}`) + hidden)
    ok(!(await titles()).includes('hidden'))
})

await test('a body in pieces is one body', async () => {
    const text = job('in pieces')
    const pieces = [...text].map((letter) => `1\r\n${letter}\r\n`).join('')
    const { text: said } = await send(server.base, `${head('POST /api/jobs HTTP/1.1', 'Transfer-Encoding: chunked', 'Connection: close')}${pieces}0\r\n\r\n`)
    strictEqual(statusOf(said), 201, said)
    const { text: got } = await to('GET', /Location: (\S+)/.exec(said)[1])
    strictEqual(got, text)
})

await test('whoever leaves in the middle of a body leaves nothing behind', async () => {
    const text = job('left')
    await send(server.base, head('POST /api/jobs HTTP/1.1', `Content-Length: ${text.length + 1}`) + text, { waitMs: 50 })
    await isWell()
    ok(!(await titles()).includes('left'))
})

// Bytes by a small generator, so that every run sends the same.
function* random(seed) {
    for (let state = seed; ;) {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0
        yield state / 2 ** 32
    }
}

await test('300 good requests, each with some bytes turned', async () => {
    const next = random(7)
    const draw = (most) => Math.floor(next.next().value * most)
    const good = [head('GET /api/jobs HTTP/1.1'), head('GET / HTTP/1.1', 'Accept-Encoding: gzip', 'If-None-Match: "0"'), head('POST /api/compare?need=IPX5&mark=IP67 HTTP/1.1', 'Content-Length: 4') + 'IP44',
        head('PUT /api/jobs/abc HTTP/1.1', 'If-Match: "1-0"', `Content-Length: ${job('x').length}`) + job('turned')]
    const trials = Array.from({ length: 300 }, () => {
        const bytes = Buffer.from(good[draw(good.length)])
        for (let i = draw(6); i >= 0; i--) bytes[draw(bytes.length)] = draw(256)
        return bytes
    })
    for (let i = 0; i < trials.length; i += 50) await Promise.all(trials.slice(i, i + 50).map((bytes) => send(server.base, bytes, { waitMs: 300 })))
    await isWell()
    ok(!(await titles()).includes('turned'))
})

/* --- crowds and large bodies -------------------------------------------------------------------------------------- */

const open = () => new Promise((done, fail) => {
    const socket = connect(Number(own.port), '127.0.0.1', () => done(socket))
    socket.on('error', fail)
})

// What the address checker of the asan build adds is no measure of the server.
const isMeasure = !ownProgram.includes('/asan/')
const residentMb = () => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${server.pid}/status`, 'utf8'))[1]) / 1024

await test('1,000 silent connections, and others are served', async () => {
    const before = residentMb()
    const silent = []
    for (let i = 0; i < 1000; i++) silent.push(await open())
    for (const socket of silent) socket.write('GET /api/jobs HTTP/1.1\r\nHost:')
    const start = performance.now()
    for (let i = 0; i < 50; i++) await isWell()
    const each = (performance.now() - start) / 50
    console.log(`  ${each.toFixed(2)} ms a request beside them; ${before.toFixed(1)} -> ${residentMb().toFixed(1)} MB`)
    silent.forEach((socket) => socket.destroy())
    ok(each < 250, `${each} ms`)
    ok(!isMeasure || residentMb() - before < 100, `${residentMb()} MB`)
})

await test('more connections than are taken: the others are served when they have gone', async () => {
    const many = []
    for (let i = 0; i < 2100; i++) many.push(await open())
    many.forEach((socket) => socket.destroy())
    const until = Date.now() + 60000
    for (;;) {
        const fine = await isWell().then(() => true, () => false)
        if (fine) break
        ok(Date.now() < until, 'the server is not back')
    }
})

await test('a body of more than 64 MB is refused with 413', async () => {
    const answer = await to('POST', '/api/jobs', { body: Buffer.alloc(64 * MB + 1, ' ') })
    strictEqual(answer.status, 413, answer.text)
    match(JSON.parse(answer.text).problem, /64 MB/)
    await isWell()
})

await test('a body of 64 MB is read', async () => {
    const text = job('wide')
    const answer = await to('POST', '/api/check', { body: Buffer.concat([Buffer.from(text), Buffer.alloc(64 * MB - text.length, ' ')]) })
    strictEqual(answer.status, 200, answer.text.slice(0, 300))
})

await test('two large bodies at once', async () => {
    const large = (title) => Buffer.concat([Buffer.from(job(title)), Buffer.alloc(20 * MB, '\n')])
    const bodies = [large('first'), large('second')]
    const answers = await Promise.all(bodies.map((body) => to('POST', '/api/jobs', { body })))
    for (const [i, answer] of answers.entries()) {
        strictEqual(answer.status, 201, answer.text)
        ok((await to('GET', answer.headers.location)).bytes.equals(bodies[i]))
    }
})

// A body that waits for its last byte.
async function waiting(size) {
    const socket = await open()
    const said = new Promise((done) => socket.once('data', (bytes) => done(bytes.toString('latin1'))))
    socket.write(head('POST /api/check HTTP/1.1', `Content-Length: ${size}`))
    await new Promise((done) => socket.write(Buffer.alloc(size - 1, ' '), done))
    return { socket, said, finish: () => { socket.write(' '); return said } }
}

await test('more than 256 MB of bodies at once: the last is told to come again', async () => {
    const held = []
    for (let i = 0; i < 4; i++) held.push(await waiting(63 * MB))
    const answer = await to('POST', '/api/check', { body: Buffer.alloc(20 * MB, ' ') })
    strictEqual(answer.status, 503, answer.text)
    for (const each of held) strictEqual(statusOf(await each.finish()), 422)
    strictEqual((await to('POST', '/api/check', { body: Buffer.alloc(20 * MB, ' ') })).status, 422)
    held.forEach(({ socket }) => socket.destroy())
})

await test('large bodies that were given up are forgotten', async () => {
    for (let i = 0; i < 6; i++) (await waiting(60 * MB)).socket.destroy()
    const until = Date.now() + 60000
    const isForgotten = async () => (await to('POST', '/api/check', { body: Buffer.alloc(63 * MB, ' ') })).status === 422 && (!isMeasure || residentMb() < 100)
    while (!(await isForgotten())) {
        ok(Date.now() < until, `${residentMb()} MB`)
        await new Promise((done) => setTimeout(done, 100))
    }
})

await test('many who ask for a large job and do not read it', async () => {
    const { headers: { location } } = await to('POST', '/api/jobs', { body: job('large').replace('{', `{${' '.repeat(60 * MB)}`) })
    const before = residentMb()
    const said = []
    const lazy = []
    for (let i = 0; i < 40; i++) {
        const socket = await open()
        socket.once('data', (bytes) => {
            said.push(statusOf(bytes.toString('latin1')))
            socket.pause()
        })
        socket.write(head(`GET ${location} HTTP/1.1`))
        lazy.push(socket)
    }
    const until = Date.now() + 120000
    while (said.length < lazy.length) {
        ok(Date.now() < until, `${said.length} were answered`)
        await new Promise((done) => setTimeout(done, 20))
    }
    const held = residentMb()
    const served = said.filter((status) => status === 200).length
    console.log(`  ${served} of 40 were answered with it, the others with 503; ${held.toFixed(0)} MB`)
    ok(served >= 5 && said.every((status) => status === 200 || status === 503), said.join(' '))
    ok(!isMeasure || held < 1300, `${held} MB`)
    await isWell()
    lazy.forEach((socket) => socket.destroy())
    for (const end = Date.now() + 60000; isMeasure && residentMb() - before > 30;) {
        ok(Date.now() < end, `${residentMb()} MB afterwards`)
        await new Promise((done) => setTimeout(done, 100))
    }
    strictEqual((await to('GET', location)).status, 200)
})

await server.stop()
finish()
