// SPDX-License-Identifier: MIT
//
// The job's home: counts, places, the table by mouse, finger and keyboard, changes of many points, and 3,000 lines.

import { deepStrictEqual as same, match, ok, strictEqual } from 'node:assert'
import { readFileSync } from 'node:fs'
import { assertAccessible, examplePath, goTo, openExample, soon } from '../support/browser.mjs'

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true }

async function openJudged(page, name) {
    const job = await openExample(page, name)
    await page.waitForFunction(() => document.querySelector('.line-verdict .verdict'))
    return job
}

const focused = (page) => page.evaluate(() => ({ at: Number(document.activeElement.dataset.at), id: document.activeElement.querySelector('.line-id')?.textContent }))
const press = async (page, ...keys) => { for (const key of keys) await page.keyboard.press(key) }
const sumIs = (page, text) => soon(async () => match((await page.locator('.points-sum').textContent()).trim(), text instanceof RegExp ? text : new RegExp(`^${text}$`)))
const ids = (page) => page.locator('.table-body .line-id').allTextContents()

export default [
    { name: 'counts answer first and filter', run: async ({ page }) => {
        await openJudged(page, 'fish-farm')
        const counts = await page.locator('.points-count').allTextContents()
        same(counts.map((text) => text.replace(/\s+/g, '')), ['7barred', '22short', '16unknown', '45fits'])
        await page.locator('.points-count').nth(1).click()
        await sumIs(page, '22 of 90 points')
        await soon(async () => ok((await page.locator('.table-body .line-verdict').allTextContents()).every((text) => text.trim() === 'short')))
        await page.getByRole('button', { name: 'Show all' }).click()
        await sumIs(page, '90 points')
    } },
    { name: 'a place filters, its survey and plan are beside it', run: async ({ page }) => {
        await openJudged(page, 'bath-house')
        await page.locator('.places-name').first().click()
        await sumIs(page, /^\d+ of \d+ points$/)
        await page.locator('.places-line').first().getByRole('link', { name: /^Plan of/ }).click()
        match(page.url(), /\/place\/[^/]+\/plan$/)
    } },
    { name: 'the keyboard goes through the table, chooses, opens, and finds its place again', run: async ({ page }) => {
        await openJudged(page, 'fish-farm')
        await page.locator('.table-body .line').first().focus()
        await press(page, 'ArrowDown', 'ArrowDown')
        await soon(async () => same(await focused(page), { at: 2, id: 'HA3' }))
        await press(page, 'Space', 'Shift+ArrowDown', 'Shift+ArrowDown')
        await page.locator('.bulk-count', { hasText: /^3 chosen/ }).waitFor()
        await press(page, 'End')
        await soon(async () => strictEqual((await focused(page)).at, 89))
        await press(page, 'Home', 'PageDown')
        await soon(async () => ok((await focused(page)).at > 3))
        await press(page, 'Home', 'n')
        await soon(async () => strictEqual((await focused(page)).id, 'HA2'))
        await press(page, 'Enter')
        await page.waitForURL(/\/point\/HA2$/)
        await page.goBack()
        await page.locator('.bulk-count').waitFor()
        await soon(async () => strictEqual(await page.locator('.table-body .line[tabindex="0"] .line-id').textContent(), 'HA2'))
    } },
    { name: 'rows say where they are to those who do not see them', run: async ({ page }) => {
        await openJudged(page, 'fish-farm')
        await soon(async () => strictEqual(await page.locator('[role=grid]').getAttribute('aria-rowcount'), '91'))
        await soon(async () => strictEqual(await page.locator('.table-body .line').first().getAttribute('aria-rowindex'), '2'))
        await page.locator('.table-sort').first().click()
        await soon(async () => strictEqual(await page.locator('[role=columnheader]').nth(1).getAttribute('aria-sort'), 'ascending'))
        await soon(async () => strictEqual((await page.locator('.table-body .line-verdict').first().textContent()).trim(), 'barred'))
    } },
    { name: 'shift chooses a range, and one mark is set for all of it in one step', run: async ({ page }) => {
        const job = await openJudged(page, 'fish-farm')
        await page.locator('.line-choose input').nth(1).click()
        await page.locator('.line-choose input').nth(3).click({ modifiers: ['Shift'] })
        await page.locator('.bulk-count', { hasText: /^3 chosen/ }).waitFor()
        await page.locator('.bulk').getByRole('button', { name: 'Mark' }).click()
        await page.getByLabel('IP code, as printed').fill('IP20')
        await page.getByLabel('IK code').focus()
        await page.getByRole('button', { name: 'Set it' }).click()
        await soon(async () => same((await page.locator('.table-body .line-marked').allTextContents()).slice(0, 3), ['IP20', 'IP20', 'IP20']))
        await page.getByRole('button', { name: 'Undo: Mark, of 3 points' }).click()
        await soon(async () => strictEqual((await page.locator('.table-body .line-marked').first().textContent()).trim(), 'IP66 IK08'))
        await goTo(page, job)
    } },
    { name: 'copies and removals go by the choice', run: async ({ page }) => {
        await openJudged(page, 'fish-farm')
        await page.locator('.line-choose input').nth(1).click()
        await page.locator('.bulk').getByRole('button', { name: 'Copy' }).click()
        await sumIs(page, '91 points')
        await soon(async () => same((await ids(page)).slice(0, 3), ['HA1', 'HA9', 'HA2']))
        await page.locator('.bulk').getByRole('button', { name: 'Remove' }).click()
        await soon(async () => same((await ids(page)).slice(0, 2), ['HA9', 'HA2']))
    } },
    { name: 'a place, then points one after the other, from nothing', run: async ({ page }) => {
        await page.getByRole('button', { name: 'New job' }).click()
        await page.waitForURL(/#\/job\//)
        await page.getByRole('heading', { name: 'Begin with a place' }).waitFor()
        await page.locator('.points-main').getByRole('button', { name: 'Place' }).click()
        await page.getByLabel('Name').fill('Yard')
        await page.getByRole('combobox', { name: 'What it is' }).fill('yard')
        await page.getByRole('option', { name: /yard/i }).first().click()
        await page.getByRole('button', { name: 'Add and survey it' }).click()
        await page.waitForURL(/\/place\/yard$/)
        await page.goBack()
        await page.locator('main[data-at="job"] h1').waitFor()
        await press(page, 'a')
        await page.getByRole('dialog').getByLabel('Name').waitFor()
        await page.keyboard.type('Tap light')
        await page.getByRole('button', { name: 'Add, and one more' }).click()
        await page.getByText('Added P1.').waitFor()
        await page.keyboard.type('Gate')
        await page.getByRole('button', { name: 'Add and open' }).click()
        await page.waitForURL(/\/point\/P2$/)
        await page.getByRole('heading', { name: /P2 Gate/ }).waitFor()
    } },
    { name: 'title, date and rules of the job', run: async ({ page }) => {
        await openJudged(page, 'mill-house')
        await page.getByText('was not in force on the job').click()
        await page.getByText('withdrawn 2026-10-15').waitFor()
        await page.getByRole('button', { name: 'Title and rules' }).click()
        await page.getByLabel('Title', { exact: true }).fill('Mill')
        await page.getByLabel('Date of the survey').fill('2024-05-04')
        await soon(async () => strictEqual(await page.getByRole('button', { name: /gb-2022/ }).getAttribute('aria-pressed'), 'true'))
        await assertAccessible(page)
        await page.getByRole('button', { name: 'Close' }).click()
        await page.getByRole('heading', { name: 'Mill', exact: true }).waitFor()
        await page.waitForFunction(() => !document.querySelector('.points-note') || !/not in force/.test(document.querySelector('.points-notes').textContent))
    } },
    { name: 'of 3,000 lines only those on the screen are in the page', run: async ({ page }) => {
        const job = JSON.parse(readFileSync(examplePath('fish-farm'), 'utf8'))
        const points = Array.from({ length: 3000 }, (_, index) => ({ ...job.points[index % job.points.length], id: `P${index + 1}` }))
        await page.locator('input[type=file]').setInputFiles({ name: 'long.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify({ ...job, points })) })
        await page.waitForFunction(() => document.querySelector('.line-verdict .verdict'))
        await soon(async () => ok(await page.locator('.table-body .line').count() < 60))
        await page.locator('.table-body .line').first().focus()
        await press(page, 'End')
        await soon(async () => same(await focused(page), { at: 2999, id: 'P3000' }))
        await soon(async () => ok(await page.locator('.table-body .line').count() < 80))
        await page.locator('#points-find').fill('P2999')
        await page.waitForFunction(() => document.querySelectorAll('.table-body .line').length === 1)
    } },
    { name: 'on a phone: cards, nothing sticks out, everything can be tapped', context: phone, run: async ({ page }) => {
        await openJudged(page, 'fish-farm')
        await soon(async () => ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)))
        const box = await page.locator('.table-body .line').first().boundingBox()
        ok(box.height >= 48)
        await page.locator('.table-body .line-name').first().tap()
        await page.waitForURL(/\/point\/HA1$/)
    } },
    { name: 'no violation of WCAG 2.2 AA', run: async ({ page }) => {
        await openJudged(page, 'bath-house')
        await page.locator('.points-choice select').nth(1).selectOption('place')
        await page.locator('.line-choose input').nth(2).click()
        await assertAccessible(page)
        await page.setViewportSize({ width: 360, height: 740 })
        await assertAccessible(page)
        await page.evaluate(() => { document.documentElement.dataset.theme = 'dark' })
        await assertAccessible(page)
    } }
]
