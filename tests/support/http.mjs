// SPDX-License-Identifier: MIT
//
// Requests with headers of any kind, and bytes that are no request at all.

import { request } from 'node:http'
import { request as secureRequest } from 'node:https'
import { connect } from 'node:net'

// { status, headers, bytes, text }: ask(base, 'PUT', 'api/jobs/k7', { headers, body }). A certificate need not be known.
export function ask(base, method, path, { headers = {}, body, agent = false } = {}) {
    const url = new URL(base)
    const secure = url.protocol === 'https:'
    const options = { host: url.hostname.replace(/[[\]]/g, ''), port: url.port, method, path: path.startsWith('/') ? path : `/${path}`, agent, rejectUnauthorized: false,
        headers: { Host: url.host, ...headers } }
    return new Promise((done, fail) => {
        const sent = (secure ? secureRequest : request)(options, (answer) => {
            const pieces = []
            answer.on('data', (piece) => pieces.push(piece))
            answer.on('error', fail)
            answer.on('end', () => {
                const bytes = Buffer.concat(pieces)
                done({ status: answer.statusCode, headers: answer.headers, bytes, text: bytes.toString('utf8') })
            })
        })
        sent.on('error', fail)
        sent.end(body)
    })
}

// Sends bytes as they are; resolves with all that came back when the server closes or the time is over.
export function send(base, bytes, { waitMs = 1500, host } = {}) {
    const { hostname, port } = new URL(base)
    return new Promise((done, fail) => {
        const socket = connect({ host: host ?? hostname, port: Number(port) })
        const pieces = []
        const end = (closed) => {
            clearTimeout(timer)
            socket.destroy()
            done({ closed, text: Buffer.concat(pieces).toString('latin1') })
        }
        const timer = setTimeout(() => end(false), waitMs)
        socket.on('data', (piece) => pieces.push(piece))
        socket.on('close', () => end(true))
        socket.on('error', (error) => (error.code === 'ECONNRESET' || error.code === 'EPIPE' ? end(true) : fail(error)))
        socket.write(bytes)
    })
}
