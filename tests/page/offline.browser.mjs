// SPDX-License-Identifier: MIT
//
// Without the server: edits stay, the page opens again, and all is sent later. Two pages on one job: merged, or shown side
// by side.

import { ok, strictEqual } from 'node:assert'
import { startServer } from '../support/serve.mjs'
import { examplePath, goTo, openExample } from '../support/browser.mjs'

const listed = async (base) => (await (await fetch(`${base}api/jobs`)).json()).jobs
const textOf = async (base, id) => (await fetch(`${base}api/jobs/${id}`)).text()

async function until(what, check, most = 20000) {
    const end = Date.now() + most
    while (Date.now() < end) {
        const found = await check()
        if (found) return found
        await new Promise((done) => setTimeout(done, 100))
    }
    throw new Error(`${what}: not within ${most / 1000} s`)
}

async function rename(page, job, point, name) {
    await goTo(page, job, 'point', point)
    const field = page.getByLabel('Name', { exact: true })
    await field.fill(name)
    await field.press('Enter')
    await page.getByRole('heading', { name: `${point} ${name}` }).waitFor()
}

const remoteOf = (page, job) => page.evaluate((id) => new Promise((done) => {
    const open = indexedDB.open('dripstone', 1)
    open.onsuccess = () => {
        const read = open.result.transaction('jobs').objectStore('jobs').get(id)
        read.onsuccess = () => done(read.result)
    }
}), job)

const sent = (page, base, name) => until(`"${name}" on the server`, async () => {
    const [entry] = await listed(base)
    return entry && (await textOf(base, entry.id)).includes(name)
})

export default [
    { name: 'edits without the server are kept and sent when it is back', run: async ({ page, context, base, server }) => {
        const port = Number(new URL(base).port)
        const job = await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        await until('the page kept by the service worker', () => page.evaluate(() => navigator.serviceWorker.ready.then(({ active }) => active?.state === 'activated')))
        await server.kill()
        await rename(page, job, 'wet-L1', 'Ceiling light, low')
        await page.close()
        const again = await context.newPage()
        await again.goto(`${base}#/job/${job}/point/wet-L1`)
        await again.getByRole('heading', { name: 'wet-L1 Ceiling light, low' }).waitFor()
        const back = await startServer({ data: server.data, port })
        try {
            await again.reload()
            await sent(again, base, 'Ceiling light, low')
        } finally {
            await back.stop()
        }
    } },
    { name: 'two pages change different points: both are kept', run: async ({ page, context, base }) => {
        const job = await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        const other = await (await context.browser().newContext()).newPage()
        await other.goto(base)
        await other.locator('.job-link').first().click()
        await other.waitForURL(/#\/job\//)
        const otherJob = /#\/job\/([^/]+)/.exec(other.url())[1]
        await rename(other, otherJob, 'wet-F1', 'Fan changed there')
        await sent(other, base, 'Fan changed there')
        await rename(page, job, 'wet-L1', 'Light changed here')
        await sent(page, base, 'Light changed here')
        const [entry] = await listed(base)
        const text = await textOf(base, entry.id)
        ok(text.includes('Fan changed there') && text.includes('Light changed here'), 'both changes are on the server')
        await other.context().close()
    } },
    { name: 'two pages change the same: both versions side by side, and the chosen one stays', run: async ({ page, context, base }) => {
        const job = await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        const [{ id }] = await listed(base)
        const record = await until('its ETag here', async () => (await remoteOf(page, job)).tag && remoteOf(page, job))
        const theirs = record.text.replace('"Ceiling light"', '"Theirs"')
        await page.evaluate(() => { Object.defineProperty(document, 'visibilityState', { value: 'hidden' }) })
        const put = await fetch(`${base}api/jobs/${id}`, { method: 'PUT', body: theirs, headers: { 'If-Match': record.tag } })
        strictEqual(put.status, 200)
        await rename(page, job, 'wet-L1', 'Ours')
        await page.getByText('differs from the server').waitFor()
        await goTo(page, job, 'conflict')
        await page.getByText('Ours').first().waitFor()
        await page.getByText('Theirs').first().waitFor()
        await page.getByLabel('On the server').first().check()
        await page.getByRole('button', { name: 'Keep these' }).click()
        await page.waitForURL(new RegExp(`#/job/${job}$`))
        await goTo(page, job, 'point', 'wet-L1')
        await page.getByRole('heading', { name: 'wet-L1 Theirs' }).waitFor()
        void context
    } },
    { name: 'a job file comes in and goes out as it is', run: async ({ page }) => {
        await openExample(page, 'bath-house')
        const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'File', exact: true }).click()])
        const { readFileSync } = await import('node:fs')
        const out = JSON.parse(readFileSync(await download.path(), 'utf8'))
        ok(JSON.stringify(out) === JSON.stringify(JSON.parse(readFileSync(examplePath('bath-house'), 'utf8'))), 'the same document, keys in the same order')
    } }
]
