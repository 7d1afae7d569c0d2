// SPDX-License-Identifier: MIT
//
// Jobs as the server and this browser hold them, and edits of the page that several tests make.

import { goTo } from './browser.mjs'

export const listed = async (base) => (await (await fetch(`${base}api/jobs`)).json()).jobs
export const textOf = async (base, id) => (await fetch(`${base}api/jobs/${id}`)).text()

// What check() gives once it gives something; fails when it never does.
export async function until(what, check, most = 30000) {
    for (const end = Date.now() + most; Date.now() < end; await new Promise((done) => setTimeout(done, 100))) {
        const found = await check()
        if (found) return found
    }
    throw new Error(`${what}: not within ${most / 1000} s`)
}

// The record of a job in this browser (web/state/shelf.js).
export const recordOf = (page, job) => page.evaluate((id) => new Promise((done) => {
    const open = indexedDB.open('dripstone', 1)
    open.onsuccess = () => {
        const read = open.result.transaction('jobs').objectStore('jobs').get(id)
        read.onsuccess = () => done(read.result)
    }
}), job)

export async function renamePoint(page, job, point, name) {
    await goTo(page, job, 'point', point)
    const field = page.getByLabel('Name', { exact: true })
    await field.fill(name)
    await field.press('Enter')
    await page.getByRole('heading', { name: `${point} ${name}` }).waitFor()
}

// Words in the only job of the server.
export const heldByServer = (base, words) => until(`“${words}” on the server`, async () => {
    const [entry] = await listed(base)
    return entry && (await textOf(base, entry.id)).includes(words)
})

// wet-L1 of the bath-house is called "Theirs" on the server and "Ours" here, and the page says that they differ.
export async function makeConflict(page, base, job) {
    const record = await until('its ETag here', async () => { const now = await recordOf(page, job); return now.tag && now.text === now.base && now })
    await page.evaluate(() => { Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true }) }) // no sync by itself meanwhile
    const put = await fetch(`${base}api/jobs/${record.remote}`, { method: 'PUT', body: record.text.replace('"Ceiling light"', '"Theirs"'), headers: { 'If-Match': record.tag } })
    if (put.status !== 200) throw new Error(`the server answered ${put.status}`)
    await renamePoint(page, job, 'wet-L1', 'Ours')
    await page.getByText('differs from the server').waitFor()
}
