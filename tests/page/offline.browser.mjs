// SPDX-License-Identifier: MIT
//
// Without the server: edits stay, the page opens again, and all is sent later. Two pages on one job: merged, or shown side
// by side.

import { ok } from 'node:assert'
import { readFileSync } from 'node:fs'
import { examplePath, goTo, openExample } from '../support/browser.mjs'
import { heldByServer, listed, makeConflict, recordOf, renamePoint, textOf, until } from '../support/jobs.mjs'
import { startServer } from '../support/serve.mjs'

export default [
    { name: 'edits without the server are kept and sent when it is back', run: async ({ page, context, base, server }) => {
        const port = Number(new URL(base).port)
        const job = await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        await until('the page kept by the service worker', () => page.evaluate(() => navigator.serviceWorker.ready.then(({ active }) => active?.state === 'activated')))
        await server.kill()
        await renamePoint(page, job, 'wet-L1', 'Ceiling light, low')
        await page.close()
        const again = await context.newPage()
        await again.goto(`${base}#/job/${job}/point/wet-L1`)
        await again.getByRole('heading', { name: 'wet-L1 Ceiling light, low' }).waitFor()
        const back = await startServer({ data: server.data, port })
        try {
            await again.reload()
            await heldByServer(base, 'Ceiling light, low')
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
        await renamePoint(other, otherJob, 'wet-F1', 'Fan changed there')
        await heldByServer(base, 'Fan changed there')
        await renamePoint(page, job, 'wet-L1', 'Light changed here')
        await heldByServer(base, 'Light changed here')
        const [entry] = await listed(base)
        const text = await textOf(base, entry.id)
        ok(text.includes('Fan changed there') && text.includes('Light changed here'), 'both changes are on the server')
        await other.context().close()
    } },
    { name: 'two pages change the same: both versions side by side, and the chosen one stays', run: async ({ page, base }) => {
        const job = await openExample(page, 'bath-house')
        await makeConflict(page, base, job)
        await goTo(page, job, 'conflict')
        await page.getByText('Ours').first().waitFor()
        await page.getByText('Theirs').first().waitFor()
        await page.getByLabel('On the server').first().check()
        await page.getByRole('button', { name: 'Keep these' }).click()
        await page.waitForURL(new RegExp(`#/job/${job}$`))
        await goTo(page, job, 'point', 'wet-L1')
        await page.getByRole('heading', { name: 'wet-L1 Theirs' }).waitFor()
    } },
    { name: 'back and forth faster than it is written: what is shown is what is kept', run: async ({ page, base }) => {
        const job = await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        await renamePoint(page, job, 'wet-L1', 'Lamp')
        await until('the name kept', async () => (await recordOf(page, job)).text.includes('"Lamp"'))
        // The shelf is kept busy until all is judged, so that undoing and redoing are done while the first is being written.
        await page.evaluate(async () => {
            const press = (shiftKey) => document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, shiftKey, bubbles: true, cancelable: true }))
            const database = await new Promise((done) => { const open = indexedDB.open('dripstone', 1); open.onsuccess = () => done(open.result) })
            const store = database.transaction('jobs', 'readwrite').objectStore('jobs')
            let busy = true
            const spin = () => { if (busy) store.count().onsuccess = spin }
            spin()
            press(false)
            press(true)
            await new Promise((done) => setTimeout(done, 2000))
            busy = false
        })
        await until('the name kept again', async () => (await recordOf(page, job)).text.includes('"Lamp"'), 8000)
        await heldByServer(base, '"Lamp"')
        await page.reload()
        await page.getByRole('heading', { name: 'wet-L1 Lamp' }).waitFor()
    } },
    { name: 'a job file comes in and goes out as it is', run: async ({ page }) => {
        await openExample(page, 'bath-house')
        const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as a file' }).click()])
        const out = JSON.parse(readFileSync(await download.path(), 'utf8'))
        ok(JSON.stringify(out) === JSON.stringify(JSON.parse(readFileSync(examplePath('bath-house'), 'utf8'))), 'the same document, keys in the same order')
    } }
]
