// SPDX-License-Identifier: MIT
//
// What docs/api.md promises of jobs, questions and the page's files: node tests/serve.mjs [NAME …]

import { deepStrictEqual, match, notStrictEqual, ok, strictEqual } from 'node:assert'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { ask } from './support/http.mjs'
import { finish, test } from './support/judge.mjs'
import { startServer } from './support/serve.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const example = (name) => readFileSync(join(root, `examples/${name}.json`))
const small = (title) => JSON.stringify({ dripstone: 1, title, rules: ['iec'], places: [], points: [] })
const server = await startServer()
const to = (method, path, more) => ask(server.base, method, path, more)
const json = ({ text }) => JSON.parse(text)

async function add(body) {
    const answer = await to('POST', '/api/jobs', { body })
    strictEqual(answer.status, 201, answer.text)
    return { ...json(answer), path: answer.headers.location, tag: answer.headers.etag }
}

const save = (job, body, tag = job.tag) => to('PUT', job.path, { body, headers: { 'If-Match': tag } })

function refused(answer, status, said) {
    strictEqual(answer.status, status, answer.text)
    strictEqual(answer.headers['content-type'], 'application/json')
    const { problem, remedy } = json(answer)
    ok(problem && remedy, answer.text)
    if (said) match(problem, said)
}

/* --- jobs --------------------------------------------------------------------------------------------------------- */

await test('an empty server has no jobs', async () => deepStrictEqual(json(await to('GET', '/api/jobs')), { jobs: [] }))

await test('a job comes back byte for byte', async () => {
    for (const name of ['mill-house', 'pottery', 'bath-house', 'fish-farm']) {
        const job = await add(example(name))
        const got = await to('GET', job.path)
        strictEqual(got.status, 200)
        strictEqual(got.headers['content-type'], 'application/json')
        strictEqual(got.headers.etag, job.tag)
        ok(got.bytes.equals(example(name)), name)
        strictEqual(job.points, JSON.parse(example(name)).points.length)
    }
})

await test('odd bytes come back as they were', async () => {
    const odd = [
        '{"dripstone": 1, "title": "x", "places": [], "points": []}\r\n\r\n',
        '\t\n {"dripstone":1,"title":"Stra\u00dfe \u6c34 \ud83d\udca7 \\u00e9 \\ud83d\\udca7","places":[],"points":[]}',
        '{"dripstone": 1, "title": "", "points": [], "places": [], "depth": 1.10, "more": [1e2, 0.0, -0, 100000000000000000000000001]}',
        '{"title": "Later", "dripstone": 1, "places": [], "points": [], "later key": {"a": null}}'
    ]
    for (const text of odd) {
        const job = await add(text)
        ok((await to('GET', job.path)).bytes.equals(Buffer.from(text)), text)
        ok((await to('GET', `${job.path}/versions/1`)).bytes.equals(Buffer.from(text)), text)
    }
})

await test('a byte order mark is kept or refused, never dropped', async () => {
    const text = `\ufeff${small('marked')}`
    const answer = await to('POST', '/api/jobs', { body: text })
    if (answer.status !== 201) return refused(answer, 400)
    ok((await to('GET', answer.headers.location)).bytes.equals(Buffer.from(text)))
})

await test('the list has the latest first, with title, points, version, tag and time', async () => {
    const job = await add(small('The one of the list'))
    const { jobs } = json(await to('GET', '/api/jobs'))
    const entry = jobs.find(({ id }) => id === job.id)
    strictEqual(entry.title, 'The one of the list')
    strictEqual(entry.version, 1)
    strictEqual(`"${entry.tag}"`, job.tag)
    match(entry.saved, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/)
    ok(Math.abs(Date.parse(entry.saved) - Date.now()) < 60000, entry.saved)
    ok(jobs.every(({ saved }, i) => i === 0 || saved <= jobs[i - 1].saved))
})

await test('a save makes the next version, and the one before stays', async () => {
    const job = await add(small('one'))
    strictEqual((await to('GET', job.path)).text, small('one'))
    const answer = await save(job, small('two'))
    strictEqual(answer.status, 200, answer.text)
    strictEqual(json(answer).version, 2)
    notStrictEqual(answer.headers.etag, job.tag)
    strictEqual((await to('GET', job.path)).text, small('two'))
    strictEqual((await to('GET', job.path)).headers.etag, answer.headers.etag)
    strictEqual((await to('GET', `${job.path}/versions/1`)).text, small('one'))
    strictEqual((await to('GET', `${job.path}/versions/1`)).headers.etag, job.tag)
    deepStrictEqual(json(await to('GET', `${job.path}/versions`)).versions.map(({ version, title }) => [version, title]), [[2, 'two'], [1, 'one']])
})

await test('nobody overwrites what they have not seen', async () => {
    const job = await add(small('ours'))
    const first = await save(job, small('mine'))
    const late = await save(job, small('theirs'))
    refused(late, 412, /not the one/)
    strictEqual(late.headers.etag, first.headers.etag)
    strictEqual(json(late).version, 2)
    strictEqual((await to('GET', job.path)).text, small('mine'))
    strictEqual(json(await to('GET', `${job.path}/versions`)).versions.length, 2)
})

await test('of twenty saves of one version at once one is taken', async () => {
    const job = await add(small('contended'))
    const answers = await Promise.all(Array.from({ length: 20 }, (_, i) => save(job, small(`by ${i}`))))
    const taken = answers.filter(({ status }) => status === 200)
    strictEqual(taken.length, 1)
    strictEqual(answers.filter(({ status }) => status === 412).length, 19)
    strictEqual(json(await to('GET', `${job.path}/versions`)).versions.length, 2)
})

await test('a save that is sent twice is one version', async () => {
    const job = await add(small('once'))
    const first = await save(job, small('twice'))
    const second = await save(job, small('twice'))
    strictEqual(second.status, 200, second.text)
    strictEqual(second.headers.etag, first.headers.etag)
    strictEqual(json(await to('GET', `${job.path}/versions`)).versions.length, 2)
})

await test('an older version is brought back by saving it', async () => {
    const job = await add(small('early'))
    const second = await save(job, small('late'))
    const old = await to('GET', `${job.path}/versions/1`)
    strictEqual((await save(job, old.bytes, second.headers.etag)).status, 200)
    strictEqual((await to('GET', job.path)).text, small('early'))
    strictEqual(json(await to('GET', job.path + '/versions')).versions.length, 3)
})

await test('a removed job leaves the list, keeps its versions and can be had back', async () => {
    const job = await add(small('gone'))
    strictEqual((await to('GET', job.path)).status, 200)
    const removed = await to('DELETE', job.path, { headers: { 'If-Match': job.tag } })
    strictEqual(removed.status, 204)
    strictEqual(removed.text, '')
    refused(await to('GET', job.path), 404)
    ok(!json(await to('GET', '/api/jobs')).jobs.some(({ id }) => id === job.id))
    const { versions } = json(await to('GET', `${job.path}/versions`))
    deepStrictEqual(versions.map(({ version, removed: is }) => [version, is]), [[2, true], [1, undefined]])
    strictEqual(`"${versions[0].tag}"`, removed.headers.etag)
    strictEqual((await to('GET', `${job.path}/versions/1`)).text, small('gone'))
    refused(await save(job, small('back')), 412, /removed/)
    strictEqual((await save(job, small('back'), removed.headers.etag)).status, 200)
    strictEqual((await to('GET', job.path)).text, small('back'))
})

await test('what is removed with an old tag stays', async () => {
    const job = await add(small('kept'))
    await save(job, small('kept on'))
    refused(await to('DELETE', job.path, { headers: { 'If-Match': job.tag } }), 412)
    strictEqual((await to('GET', job.path)).status, 200)
})

await test('a change without If-Match, or with none of ours, is refused', async () => {
    const job = await add(small('guarded'))
    refused(await to('PUT', job.path, { body: small('x') }), 428)
    refused(await to('DELETE', job.path), 428)
    for (const tag of ['*', '', '""', '"', 'W/"1-0"', '1-0123456789abcdef', `${job.tag}, "1-0"`, '"1-g"', `"${'1'.repeat(60)}"`]) {
        const answer = await save(job, small('x'), tag)
        ok([400, 412, 428].includes(answer.status), `${tag}: ${answer.status}`)
        ok(json(answer).problem, tag)
    }
    refused(await save(job, small('x'), '"1-0123456789abcdef"'), 412)
    refused(await save(job, small('x'), '"99999999999999999999-0"'), 412)
    strictEqual((await to('GET', job.path)).text, small('guarded'))
})

await test('what is no job is refused with its place', async () => {
    const job = await add(small('good'))
    const bad = ['', '{', 'null', '[]', '{"dripstone": 2}', 'x'.repeat(1000), '{"dripstone": 1}}', '\0', '{"dripstone": 1, "title": "\xff"}']
    for (const text of bad) {
        for (const answer of [await to('POST', '/api/jobs', { body: Buffer.from(text, 'latin1') }), await save(job, Buffer.from(text, 'latin1'))]) {
            refused(answer, 400)
            const { pointer, line, column } = json(answer)
            ok(typeof pointer === 'string' && line >= 0 && column >= 0, answer.text)
        }
    }
    strictEqual((await to('GET', job.path)).headers.etag, job.tag)
})

await test('a job with problems is a job', async () => {
    const job = await add('{"dripstone": 1, "title": "odd", "places": [{"id": "a", "kind": "no such kind"}], "points": [{"id": "P1", "place": "b"}]}')
    strictEqual(job.points, 1)
})

await test('If-None-Match saves the way', async () => {
    const job = await add(example('mill-house'))
    for (const path of [job.path, `${job.path}/versions/1`]) {
        const same = await to('GET', path, { headers: { 'If-None-Match': job.tag } })
        strictEqual(same.status, 304)
        strictEqual(same.bytes.length, 0)
        strictEqual(same.headers.etag, job.tag)
        strictEqual((await to('GET', path, { headers: { 'If-None-Match': '"1-0"' } })).status, 200)
    }
    await save(job, small('newer'))
    strictEqual((await to('GET', job.path, { headers: { 'If-None-Match': job.tag } })).status, 200)
})

await test('HEAD tells what GET would, without the body', async () => {
    const job = await add(example('mill-house'))
    for (const path of [job.path, `${job.path}/versions/1`, `${job.path}/versions`, '/api/jobs', '/', '/app.js', '/api/jobs/nothing', '/nothing']) {
        const head = await to('HEAD', path)
        const got = await to('GET', path)
        strictEqual(head.status, got.status, path)
        strictEqual(head.bytes.length, 0, path)
        strictEqual(head.headers['content-length'], String(got.bytes.length), path)
        strictEqual(head.headers.etag, got.headers.etag, path)
    }
})

await test('addresses that are none of ours', async () => {
    const job = await add(small('x'))
    const none = ['/api', '/api/', '/api/none', '/api/jobs/', '/api/jobs/A', '/api/jobs/..', '/api/jobs/none', `${job.path}/`, `${job.path}/version`, `${job.path}/versions/`,
        `${job.path}/versions/0`, `${job.path}/versions/-1`, `${job.path}/versions/2`, `${job.path}/versions/1x`, `${job.path}/versions/1/`, `${job.path}/versions/99999999999999999999`,
        `/api/jobs/${'a'.repeat(24)}`, `/api/jobs/${job.id}%00`, '/api/jobs//versions', '/../etc/passwd', '/%2e%2e/%2e%2e/etc/passwd', '/./app.js', '//app.js', '/app.js/', '/APP.JS', '/none', '/%00']
    for (const path of none) {
        const answer = await to('GET', path)
        ok(answer.status === 404 || answer.status === 400 || (answer.status === 405 && path.startsWith('/api')), `${path}: ${answer.status}`)
        ok(json(answer).problem, path)
    }
})

await test('methods that an address does not take', async () => {
    const job = await add(small('x'))
    const wrong = [['PUT', '/api/jobs', 'GET, HEAD, POST'], ['DELETE', '/api/jobs', 'GET, HEAD, POST'], ['POST', job.path, 'GET, HEAD, PUT, DELETE'], ['PATCH', job.path, 'GET, HEAD, PUT, DELETE'],
        ['POST', `${job.path}/versions`, 'GET, HEAD'], ['DELETE', `${job.path}/versions/1`, 'GET, HEAD'], ['GET', '/api/check', 'POST'], ['PUT', '/api/check', 'POST'], ['POST', '/', 'GET, HEAD'],
        ['DELETE', '/app.js', 'GET, HEAD'], ['OPTIONS', '/api/jobs', 'GET, HEAD, POST'], ['TRACE', '/', 'GET, HEAD'], ['BREW', '/', 'GET, HEAD']]
    for (const [method, path, allow] of wrong) {
        const answer = await to(method, path, { body: method === 'PUT' || method === 'POST' ? small('y') : undefined })
        refused(answer, 405)
        strictEqual(answer.headers.allow, allow, `${method} ${path}`)
    }
    strictEqual((await to('GET', job.path)).text, small('x'))
})

/* --- questions ---------------------------------------------------------------------------------------------------- */

await test('texts come from the query or the body', async () => {
    const inQuery = await to('POST', '/api/compare?need=IPX5&mark=IP67')
    const inBody = await to('POST', '/api/compare', { body: 'IPX5\x1eIP67' })
    const mixed = await to('POST', '/api/compare?mark=IP67', { body: 'IPX5' })
    const turned = await to('POST', '/api/compare?mark=IP67&need=IPX5')
    strictEqual(inQuery.status, 200, inQuery.text)
    strictEqual(json(inQuery).verdict, 'short')
    for (const answer of [inBody, mixed, turned]) strictEqual(answer.text, inQuery.text)
    strictEqual((await to('POST', '/api/read?mark=IP66%20lid+closed%2C%20IP44')).text, (await to('POST', '/api/read', { body: 'IP66 lid closed, IP44' })).text)
    strictEqual((await to('POST', '/api/zones?place=wet', { body: example('bath-house') })).status, 200)
})

await test('a question that is not clear is refused', async () => {
    const unclear = ['/api/compare?need=IPX5&mark=IP67&need=IPX4', '/api/compare?need=%zz&mark=IP67', '/api/compare?need=%4&mark=IP67', '/api/compare?ned=IPX5&mark=IP67',
        `/api/compare?need=IPX5&mark=${'I'.repeat(4097)}`, '/api/compare?need&mark=IP67']
    for (const path of unclear) refused(await to('POST', path), 400)
    refused(await to('POST', '/api/compare?need=IPX5&mark=IP67', { body: 'IP44' }), 400)
    refused(await to('POST', '/api/read', { body: 'IP44\x1eIP55' }), 400)
})

await test('what cannot be answered says why and where', async () => {
    for (const name of ['check', 'brief', 'zones?place=wet', 'draw?place=wet', 'draw_box?point=P1', 'merge', 'differ', 'import']) {
        const answer = await to('POST', `/api/${name}`, { body: '{"dripstone": 1,\n x' })
        refused(answer, 422)
        strictEqual(json(answer).line, 2, `${name}: ${answer.text}`)
    }
    refused(await to('POST', '/api/zones?place=none', { body: example('bath-house') }), 422, /none/)
    refused(await to('POST', '/api/compare', { body: 'no code\x1eIP67' }), 422)
})

await test('drawings are SVG', async () => {
    for (const [path, body] of [['draw?place=wet', example('bath-house')], ['rungs?need=IPX5&mark=IP67&form=figures', '']]) {
        const answer = await to('POST', `/api/${path}`, { body })
        strictEqual(answer.status, 200)
        strictEqual(answer.headers['content-type'], 'image/svg+xml')
        match(answer.text, /^(<\?xml[^>]*>\s*)?<svg/)
        match(answer.headers['content-security-policy'], /default-src 'none'/)
    }
})

await test('questions keep nothing', async () => {
    const before = (await to('GET', '/api/jobs')).text
    await to('POST', '/api/check', { body: example('mill-house') })
    strictEqual((await to('GET', '/api/jobs')).text, before)
})

/* --- files -------------------------------------------------------------------------------------------------------- */

const FILES = { '/': 'text/html; charset=utf-8', '/index.html': 'text/html; charset=utf-8', '/app.js': 'text/javascript; charset=utf-8', '/app.css': 'text/css; charset=utf-8',
    '/sw.js': 'text/javascript; charset=utf-8', '/worker.js': 'text/javascript; charset=utf-8', '/dripstone.wasm': 'application/wasm', '/manifest.webmanifest': 'application/manifest+json',
    '/icon.svg': 'image/svg+xml', '/atkinson-400.woff2': 'font/woff2', '/dripstone.html': 'text/html; charset=utf-8' }

await test('files have their type, and come packed where that is taken', async () => {
    let packed = 0
    for (const [path, type] of Object.entries(FILES)) {
        const plain = await to('GET', path)
        const asked = await to('GET', path, { headers: { 'Accept-Encoding': 'gzip, deflate, br' } })
        strictEqual(plain.status, 200, path)
        strictEqual(plain.headers['content-type'], type)
        strictEqual(plain.headers['content-encoding'], undefined)
        strictEqual(plain.headers.vary, 'Accept-Encoding')
        ok(plain.headers.etag)
        strictEqual(plain.headers.etag, asked.headers.etag)
        const isPacked = asked.headers['content-encoding'] === 'gzip'
        packed += isPacked
        ok((isPacked ? gunzipSync(asked.bytes) : asked.bytes).equals(plain.bytes), path)
    }
    ok(packed >= 4, `${packed} packed`)
    strictEqual((await to('GET', '/app.js', { headers: { 'Accept-Encoding': 'gzip;q=0' } })).headers['content-encoding'], undefined)
})

await test('files that the browser has are not sent again', async () => {
    for (const encoding of ['identity', 'gzip']) {
        const { headers } = await to('GET', '/app.js', { headers: { 'Accept-Encoding': encoding } })
        const again = await to('GET', '/app.js', { headers: { 'Accept-Encoding': encoding, 'If-None-Match': headers.etag } })
        strictEqual(again.status, 304)
        strictEqual(again.bytes.length, 0)
        strictEqual(again.headers.etag, headers.etag)
    }
})

await test('every answer carries the headers that keep it safe', async () => {
    const job = await add(small('x'))
    const answers = [await to('GET', '/'), await to('GET', '/app.js', { headers: { 'If-None-Match': (await to('GET', '/app.js')).headers.etag } }), await to('GET', '/none'), await to('GET', '/api/jobs'), await to('GET', job.path),
        await to('GET', job.path, { headers: { 'If-None-Match': job.tag } }), await to('PUT', job.path), await to('POST', '/api/check', { body: '{' }), await to('DELETE', job.path, { headers: { 'If-Match': job.tag } }), await to('POST', '/', { body: 'x' }),
        await to('GET', '/', { headers: { Host: 'elsewhere.example' } })]
    deepStrictEqual(answers.map(({ status }) => status), [200, 304, 404, 200, 200, 304, 428, 422, 204, 405, 421])
    for (const { status, headers } of answers) {
        const policy = headers['content-security-policy']
        for (const part of ["default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'"]) ok(policy.includes(part), `${status}: ${part}`)
        ok(!/unsafe-inline|unsafe-eval(?<!wasm-unsafe-eval)|\*|http/.test(policy), policy)
        strictEqual(headers['x-content-type-options'], 'nosniff')
        strictEqual(headers['referrer-policy'], 'no-referrer')
        strictEqual(headers['cross-origin-resource-policy'], 'same-origin')
        strictEqual(headers['cache-control'], 'no-cache')
        strictEqual(headers['access-control-allow-origin'], undefined)
        strictEqual(headers['set-cookie'], undefined)
    }
})

await server.stop()
finish()
