// SPDX-License-Identifier: MIT
//
// 40,000 points: opened, scrolled to the end, filtered, edited, undone; and the page in one file, without any server.

import { ok, strictEqual } from 'node:assert'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { examplePath, goTo } from '../support/browser.mjs'

// The mill house again and again, each with places of its own.
export function largeJob(count) {
    const mill = JSON.parse(readFileSync(examplePath('mill-house'), 'utf8'))
    const job = { ...mill, title: 'Forty thousand', places: [], points: [] }
    for (let copy = 0; job.points.length < count; copy++) {
        job.places.push(...mill.places.map((place) => ({ ...place, id: `${place.id}-${copy}` })))
        job.points.push(...mill.points.map((point) => ({ ...point, id: `${point.id}-${copy}`, place: `${point.place}-${copy}` })).slice(0, count - job.points.length))
    }
    return job
}

async function openFile(page, job) {
    const folder = mkdtempSync(join(tmpdir(), 'job-'))
    const path = join(folder, 'large.json')
    writeFileSync(path, JSON.stringify(job))
    await page.locator('input[type=file]').setInputFiles(path)
    await page.waitForURL(/#\/job\//, { timeout: 60000 })
    rmSync(folder, { recursive: true })
    return decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())[1])
}

export default [
    { name: '40,000 points', run: async ({ page }) => {
        const job = await openFile(page, largeJob(40000))
        await page.locator('.points-count .verdict-count').filter({ hasText: /\d{4}/ }).first().waitFor({ timeout: 120000 })
        const shown = await page.locator('[role=row]').count()
        ok(shown > 5 && shown < 80, `${shown} rows are in the page`)
        await page.getByRole('searchbox').first().fill('G1-12')
        await page.getByText('G1-12', { exact: true }).first().waitFor()
        await goTo(page, job, 'point', 'G1-12')
        await page.locator('.point-answer .verdict-large').waitFor()
        const name = page.getByLabel('Name', { exact: true })
        await name.fill('Changed among many')
        await name.press('Enter')
        await page.getByRole('heading', { name: 'G1-12 Changed among many' }).waitFor()
        await page.evaluate(() => document.activeElement.blur())
        await page.keyboard.press('Control+z')
        await page.getByRole('heading', { name: 'Changed among many' }).waitFor({ state: 'detached' })
    } },
    { name: 'the page in one file, from a stick', run: async ({ context }) => {
        const page = await context.newPage()
        const faults = []
        page.on('pageerror', (error) => faults.push(error.message))
        page.on('request', (request) => { if (/^https?:/.test(request.url())) faults.push(`it asked for ${request.url()}`) })
        await page.goto(pathToFileURL(fileURLToPath(new URL('../../build/web/dripstone.html', import.meta.url))).href)
        await page.getByText('Nothing here yet').waitFor()
        await page.locator('input[type=file]').setInputFiles(examplePath('bath-house'))
        await page.waitForURL(/#\/job\//)
        await page.locator('.verdict-barred').first().waitFor()
        const url = page.url()
        await page.close()
        const again = await context.newPage()
        await again.goto(url)
        await again.locator('h1', { hasText: 'Bath-house' }).waitFor()
        strictEqual(faults.join('; '), '')
    } }
]
