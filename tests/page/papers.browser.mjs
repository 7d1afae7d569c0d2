// SPDX-License-Identifier: MIT
//
// Papers from the print view: set by the server and kept as files; said where they can be had when there is none.

import { match, ok, strictEqual } from 'node:assert'
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { assertAccessible, examplePath, goTo, openExample } from '../support/browser.mjs'

async function printView(page) {
    const job = await openExample(page, 'mill-house')
    await page.locator('.kept', { hasText: 'kept and sent' }).waitFor()
    await goTo(page, job, 'print')
    await page.getByRole('heading', { name: 'Papers for each reader' }).waitFor()
    return job
}

const told = async (base, path) => (await fetch(new URL(path, base))).json()

// Until the server has so many versions of its one job.
async function sentVersions(base, wanted) {
    for (const end = Date.now() + 15000; Date.now() < end; await new Promise((done) => { setTimeout(done, 50) })) {
        const { jobs: [job] } = await told(base, 'api/jobs')
        if (job && (await told(base, `api/jobs/${job.id}/versions`)).versions.length >= wanted) return
    }
    throw new Error(`no ${wanted} versions`)
}

// What a button gives: its bytes and the name that it is kept under.
async function kept(page, button) {
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button, exact: true }).click()])
    return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) }
}

export default [
    { name: 'papers for each reader', run: async ({ page }) => {
        await printView(page)
        await assertAccessible(page)
        const titles = { Client: 'client', Fitter: 'fitter', Buyer: 'buyer', Inspector: 'inspector', 'All in one': 'all' }
        for (const [button, reader] of Object.entries(titles)) {
            const { name, bytes } = await kept(page, button)
            match(name, new RegExp(`, ${reader}\\.pdf$`))
            ok(bytes.subarray(0, 5).equals(Buffer.from('%PDF-')), reader)
        }
    } },
    { name: 'paper size, labels and spreadsheet', run: async ({ page }) => {
        await printView(page)
        await page.getByLabel('Paper size').selectOption('letter')
        const letter = await kept(page, 'Buyer')
        match(spawnSync('pdfinfo', ['-'], { input: letter.bytes }).stdout.toString(), /^Page size: +612 x 792/m)
        const sheet = await kept(page, 'Spreadsheet')
        match(sheet.name, /\.xlsx$/)
        ok(sheet.bytes.subarray(0, 2).equals(Buffer.from('PK')))
        await page.getByText('Labels, one a piece').click()
        await page.getByLabel('Columns x rows').fill('2x7')
        await page.getByLabel('One label, mm').fill('99.1 x 38.1')
        await page.getByLabel('One label, mm').press('Enter')
        match((await kept(page, 'Labels')).name, /, labels\.pdf$/)
        await page.getByLabel('Columns x rows').fill('9x9')
        await page.getByLabel('Columns x rows').press('Enter')
        await page.getByRole('button', { name: 'Labels', exact: true }).click()
        await page.getByRole('alert').filter({ hasText: 'do not fit' }).waitFor()
        await assertAccessible(page)
    } },
    { name: 'papers when the server is away', run: async ({ page, server }) => {
        await printView(page)
        await server.kill()
        await page.getByRole('button', { name: 'Client', exact: true }).click()
        await page.getByRole('alert').filter({ hasText: 'the server does not answer' }).waitFor()
        strictEqual(await page.getByRole('button', { name: 'Print', exact: true }).isVisible(), true)
    } },
    { name: 'what changed since a version', run: async ({ page, base }) => {
        const job = await printView(page)
        await sentVersions(base, 1)
        await goTo(page, job, 'point', 'B1')
        await page.getByLabel('Name', { exact: true }).fill('Another name')
        await page.getByLabel('Name', { exact: true }).press('Enter')
        await sentVersions(base, 2)
        await goTo(page, job, 'versions')
        const { name, bytes } = await kept(page, 'Changes since')
        match(name, /, changes since version 1\.pdf$/)
        match(spawnSync('pdftotext', ['-', '-'], { input: bytes }).stdout.toString(), /Another name/)
    } },
    { name: 'in one file the page says that papers need the program', run: async ({ context }) => {
        const page = await context.newPage()
        await page.goto(pathToFileURL(fileURLToPath(new URL('../../build/web/dripstone.html', import.meta.url))).href)
        await page.locator('input[type=file]').setInputFiles(examplePath('bath-house'))
        await page.waitForURL(/#\/job\//)
        await page.evaluate(() => { location.hash += '/print' })
        await page.getByText('open the page with dripstone serve').waitFor()
        strictEqual(await page.getByRole('button', { name: 'Client', exact: true }).count(), 0)
    } },
    { name: 'papers are not on the printed schedule', run: async ({ page }) => {
        await printView(page)
        await page.emulateMedia({ media: 'print' })
        strictEqual(await page.getByRole('heading', { name: 'Papers for each reader' }).isVisible(), false)
    } }
]
