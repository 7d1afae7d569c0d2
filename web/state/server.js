// SPDX-License-Identifier: MIT
//
// The server's jobs (docs/api.md), by name. Each call gives what it is for, or throws: Away when no server answers,
// Differs when the job there is not the one that was last seen, Refused with the server's own words.

export class Away extends Error {}
export class Differs extends Error {}
export class Refused extends Error {}

const WAIT_MS = 20000
const ORDER_MS = 300000

async function ask(method, path, { text, headers = {} } = {}) {
    let answer
    try {
        answer = await fetch(`api/${path}`, { method, body: text, headers: text === undefined ? headers : { 'Content-Type': 'application/json', ...headers }, cache: 'no-store', signal: AbortSignal.timeout(WAIT_MS) })
    } catch (error) {
        throw new Away(error.message)
    }
    if (answer.ok) return answer
    if (answer.status === 412 || answer.status === 404) throw new Differs(`${method} ${path}: ${answer.status}`)
    if (answer.status >= 500) throw new Away(`${method} ${path}: ${answer.status}`)
    const words = await answer.json().catch(() => ({}))
    throw new Refused(words.problem ?? `${method} ${path}: ${answer.status}`)
}

// A file that the server sets (docs/api.md, Papers), as a blob. A long one takes a while; whoever leaves gets none.
export async function orderFile(name, query, text) {
    let answer
    try {
        answer = await fetch(`api/${name}?${new URLSearchParams(query)}`, { method: 'POST', body: text, signal: AbortSignal.timeout(ORDER_MS) })
        if (answer.ok) return await answer.blob()
    } catch (error) {
        throw new Away(error.message)
    }
    const words = await answer.json().catch(() => ({}))
    throw new Refused([words.problem ?? `status ${answer.status}`, words.remedy].filter(Boolean).join('. '))
}

const jobPath = (id) => `jobs/${encodeURIComponent(id)}`
const tagOf = (answer) => answer.headers.get('ETag')

// [{ id, title, points, version, saved }]
export const listJobs = async () => (await (await ask('GET', 'jobs')).json()).jobs

export async function fetchJob(id) {
    const answer = await ask('GET', jobPath(id))
    return { text: await answer.text(), tag: tagOf(answer) }
}

export async function createJob(text) {
    const answer = await ask('POST', 'jobs', { text })
    return { remote: decodeURIComponent(answer.headers.get('Location').split('/').pop()), tag: tagOf(answer) }
}

export async function saveJob(id, text, tag) {
    return { tag: tagOf(await ask('PUT', jobPath(id), { text, headers: { 'If-Match': tag } })) }
}

export const removeJob = (id, tag) => ask('DELETE', jobPath(id), { headers: { 'If-Match': tag } })

// Youngest first: [{ version, saved, title, points, removed }].
export const listVersions = async (id) => (await (await ask('GET', `${jobPath(id)}/versions`)).json()).versions
export const fetchVersion = async (id, version) => (await ask('GET', `${jobPath(id)}/versions/${version}`)).text()
