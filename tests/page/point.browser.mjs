// SPDX-License-Identifier: MIT
//
// A point: its answer follows what is entered, letter by letter where it is a code; what is missing stands open.

import { match, ok, strictEqual } from 'node:assert'
import { assertAccessible, goTo, openExample, soon } from '../support/browser.mjs'

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true }

async function openPoint(page, example, id) {
    const job = await openExample(page, example)
    await goTo(page, job, 'point', id)
    await page.locator('.point-answer .verdict-large').waitFor()
    return job
}

const verdictIs = (page, word) => page.locator(`.point-answer .verdict-large.verdict-${word}`).waitFor()
const isOpen = (page, label) => page.locator('.point-section', { has: page.getByRole('heading', { name: label, exact: true }) }).evaluate((section) => section.open)

export default [
    { name: 'another mark, another verdict, and back', run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA1')
        await verdictIs(page, 'fits')
        const mark = page.getByLabel('IP code, as printed')
        await mark.fill('IP20')
        await mark.press('Enter')
        await verdictIs(page, 'short')
        await soon(async () => match(await page.locator('.point-said').textContent(), /Not covered/))
        await mark.blur()
        await page.keyboard.press('Control+z')
        await verdictIs(page, 'fits')
    } },
    { name: 'what is read in a code stands beneath it while it is typed', run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA1')
        await page.getByLabel('IP code, as printed').fill('weatherproof')
        await soon(async () => match(await page.locator('.point-reading').textContent(), /no degree of protection/))
        await verdictIs(page, 'fits')
        await page.getByLabel('IP code, as printed').fill('IP65/67')
        await soon(async () => match(await page.locator('.point-reading').textContent(), /IP65\/IP67/))
    } },
    { name: 'the section that an open rule waits for stands open, and stays so when it is answered', run: async ({ page }) => {
        await openPoint(page, 'mill-house', 'B4')
        await verdictIs(page, 'unknown')
        await soon(async () => ok(await isOpen(page, 'What the maker states besides')))
        await soon(async () => ok(!await isOpen(page, 'Found at inspection')))
        await page.getByRole('group', { name: 'For zones' }).getByRole('button', { name: 'zone 1' }).click()
        await verdictIs(page, 'fits')
        await soon(async () => ok(await isOpen(page, 'What the maker states besides')))
    } },
    { name: 'two marks with conditions and two states: the worst decides', run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA3')
        await verdictIs(page, 'fits')
        await page.getByLabel('IP code, as printed').nth(1).fill('IP20')
        await page.getByLabel('IP code, as printed').nth(1).press('Enter')
        await verdictIs(page, 'short')
        await soon(async () => match(await page.locator('.point-facts').textContent(), /worst statePlug in/))
    } },
    { name: 'words of this spot are put in and taken out', run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA1')
        await page.getByRole('heading', { name: 'Seen at this very spot' }).click()
        await page.getByRole('combobox', { name: 'Seen here' }).fill('hot lance')
        await page.locator('.picker-list:not([hidden]) [role=option]').first().click()
        await soon(async () => match(await page.getByRole('list', { name: 'Seen here' }).textContent(), /\w/))
        await page.getByRole('button', { name: /^Take out/ }).click()
        await soon(async () => strictEqual(await page.getByRole('list', { name: 'Seen here' }).count(), 0))
    } },
    { name: 'reasons with clause, edition and source', run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA2')
        await page.locator('.point-fold > summary', { hasText: 'Reasons' }).click()
        await soon(async () => match(await page.locator('.point-decides').first().textContent(), /512\.2; IEC 60364/))
    } },
    { name: 'next follows the list as it is filtered; copy makes one after it', run: async ({ page }) => {
        const job = await openExample(page, 'fish-farm')
        await page.waitForFunction(() => document.querySelector('.line-verdict .verdict'))
        await page.locator('.points-count', { hasText: 'barred' }).click()
        const listed = (await page.locator('.table-body .line-id').allTextContents())
        await page.locator('.table-body .line-name').first().click()
        await page.waitForURL(new RegExp(`/point/${listed[0]}$`))
        await page.locator(`main[data-at="point ${listed[0]}"] .point-answer`).waitFor()
        await page.keyboard.press('n')
        await page.waitForURL(new RegExp(`/point/${listed[1]}$`))
        await goTo(page, job, 'point', 'HA1')
        await page.keyboard.press('c')
        await page.waitForURL(/\/point\/HA9$/)
        await page.getByRole('heading', { name: /^HA9 Linear lights/ }).waitFor()
    } },
    { name: 'on a phone the answer comes first and the ways on are at the thumb', context: phone, run: async ({ page }) => {
        await openPoint(page, 'fish-farm', 'HA2')
        await soon(async () => ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)))
        const answer = await page.locator('.point-answer').boundingBox()
        const entries = await page.locator('.point-entries').boundingBox()
        ok(answer.y < entries.y)
        const next = await page.getByRole('button', { name: 'Next point' }).boundingBox()
        ok(next.height >= 48 && next.y + next.height <= 740 && next.y > 600)
        await assertAccessible(page)
    } },
    { name: 'no violation of WCAG 2.2 AA', run: async ({ page }) => {
        await openPoint(page, 'mill-house', 'B4')
        await page.evaluate(() => document.querySelectorAll('.point details').forEach((details) => { details.open = true }))
        await assertAccessible(page)
        await page.evaluate(() => { document.documentElement.dataset.theme = 'dark' })
        await assertAccessible(page)
    } }
]
