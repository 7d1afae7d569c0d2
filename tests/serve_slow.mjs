// SPDX-License-Identifier: MIT
//
// Clients that take their time, all at once: node tests/serve_slow.mjs. Who is silent goes after 20 seconds, who dribbles
// after 60, in the head or in the body, and meanwhile the others are served. Takes a little more than a minute.

import { ok, strictEqual } from 'node:assert'
import { connect } from 'node:net'
import { ask } from './support/http.mjs'
import { finish, test } from './support/judge.mjs'
import { startServer } from './support/serve.mjs'

const SILENCE_S = 20
const REQUEST_S = 60
const SLACK_S = 10
const server = await startServer()
const own = new URL(server.base)
const begin = `Host: ${own.host}\r\nContent-Length: 100000\r\n`

// Sends the first bytes, then a letter every so often (0: none); resolves with the seconds until the server hung up.
function client(first, everyMs, letter) {
    const start = Date.now()
    return new Promise((done, fail) => {
        const socket = connect(Number(own.port), '127.0.0.1', () => socket.write(first))
        const timer = everyMs ? setInterval(() => socket.write(letter), everyMs) : undefined
        const late = setTimeout(() => fail(new Error('still there')), (REQUEST_S + SLACK_S + 5) * 1000)
        socket.on('error', () => {})
        socket.on('close', () => {
            clearInterval(timer)
            clearTimeout(late)
            done((Date.now() - start) / 1000)
        })
        socket.resume()
    })
}

const clients = {
    'one that says nothing': [SILENCE_S, client('', 0)],
    'one that falls silent in its head': [SILENCE_S, client('GET / HTTP/1.1\r\nHo', 0)],
    'one that falls silent in its body': [SILENCE_S, client(`POST /api/check HTTP/1.1\r\n${begin}\r\n{`, 0)],
    'one that is answered and stays': [SILENCE_S, client(`GET /api/jobs HTTP/1.1\r\nHost: ${own.host}\r\n\r\n`, 0)],
    'one that dribbles its address': [REQUEST_S, client('GET /', 1000, 'a')],
    'one that dribbles its head': [REQUEST_S, client(`POST /api/check HTTP/1.1\r\n${begin}X: `, 1000, 'a')],
    'one that dribbles its body': [REQUEST_S, client(`POST /api/check HTTP/1.1\r\n${begin}\r\n`, 1000, ' ')],
    'one that dribbles chunks': [REQUEST_S, client(`POST /api/jobs HTTP/1.1\r\nHost: ${own.host}\r\nTransfer-Encoding: chunked\r\n\r\n`, 1000, '1\r\n \r\n')],
    'one that dribbles to a wrong address': [REQUEST_S, client(`POST /nowhere HTTP/1.1\r\n${begin}\r\n`, 1000, ' ')]
}

for (const [name, [seconds, gone]] of Object.entries(clients)) {
    await test(`${name} goes after ${seconds} s`, async () => {
        const took = await gone
        ok(took > seconds - 2 && took < seconds + SLACK_S, `${took} s`)
        strictEqual((await ask(server.base, 'GET', '/api/jobs')).status, 200)
    })
}

await server.stop()
finish()
