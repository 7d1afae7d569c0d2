// SPDX-License-Identifier: MIT
//
// What people do now and then: a kept version put back, a table taken in, a job removed, a file that is none, the list of
// questions, and one code held against another by tapping only.

import { match, ok, strictEqual } from 'node:assert'
import { assertAccessible, goTo, openExample } from '../support/browser.mjs'
import { heldByServer, listed, renamePoint, textOf, until } from '../support/jobs.mjs'

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true }

// --- versions -------------------------------------------------------------------------------------------------------

const versions = [
    { name: 'a kept version is put back, undone, and sent as the newest', run: async ({ page, base }) => {
        const job = await openExample(page, 'bath-house')
        await heldByServer(base, 'Ceiling light')
        await renamePoint(page, job, 'wet-L1', 'Lamp of the second version')
        await heldByServer(base, 'Lamp of the second version')
        await goTo(page, job, 'versions')
        await page.getByText('Version 2:').waitFor()
        strictEqual(await page.getByText('the newest').count(), 1)
        await assertAccessible(page)
        await page.locator('li', { hasText: 'Version 1:' }).getByRole('button', { name: 'Put back' }).click()
        await page.waitForURL(new RegExp(`#/job/${job}$`))
        await goTo(page, job, 'point', 'wet-L1')
        await page.getByRole('heading', { name: 'wet-L1 Ceiling light' }).waitFor()
        await page.getByRole('button', { name: 'Undo: Version 1 put back' }).click()
        await page.getByRole('heading', { name: 'wet-L1 Lamp of the second version' }).waitFor()
        await page.getByRole('button', { name: 'Redo: Version 1 put back' }).click()
        await page.getByRole('heading', { name: 'wet-L1 Ceiling light' }).waitFor()
        await until('the first version on the server again', async () => {
            const [entry] = await listed(base)
            return entry.version > 2 && !(await textOf(base, entry.id)).includes('second version')
        })
    } },
    { name: 'without the server the versions say so', run: async ({ page, base, server }) => {
        const job = await openExample(page, 'bath-house')
        await heldByServer(base, 'Ceiling light')
        await server.kill()
        await goTo(page, job, 'versions')
        await page.getByRole('alert').getByText('The versions cannot be shown').waitFor()
    } }
]

// --- a table --------------------------------------------------------------------------------------------------------

const TABLE = `Tag,Room,Type,Description,Protection
S1,shop,socket-outlet,Socket by the door,IP44
S2,shop,socket-outlet,Socket at the till,IP2X
S3,cellar,socket-outlet,Socket in the cellar,IP54
`

async function jobWithShop(page) {
    await page.locator('input[type=file]').setInputFiles({ name: 'shop.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify({
        dripstone: 1, title: 'Shop', rules: ['gb-2022'], date: '2026-05-04', places: [{ id: 'shop', name: 'Shop', kind: 'shop', setting: 'indoors', seen: 'none' }], points: [] })) })
    await page.waitForURL(/#\/job\//)
    await page.getByText('No points yet').waitFor()
}

const giveTable = (page, text, name = 'points.csv') => page.locator('input[aria-label="CSV file"]').setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) })
const fills = (page, heading) => page.getByLabel(`${heading} fills`)

const tables = [
    { name: 'a table comes in: columns chosen once, faults by row, one step back', run: async ({ page }) => {
        await jobWithShop(page)
        await page.getByRole('link', { name: 'From a spreadsheet' }).click()
        await page.getByRole('heading', { name: 'From a spreadsheet' }).waitFor()
        await giveTable(page, TABLE)
        await fills(page, 'Tag').waitFor()
        strictEqual(await fills(page, 'Tag').inputValue(), 'id', 'usual headings are known')
        strictEqual(await fills(page, 'Protection').inputValue(), '')
        await fills(page, 'Protection').selectOption({ label: 'IP code' })
        // The job has no cellar: said with its row, and nothing comes in.
        await page.getByText('row 4, column B').waitFor()
        ok(await page.getByRole('button', { name: 'Take it in' }).isDisabled(), 'nothing comes in while there are faults')
        await assertAccessible(page)
        await page.getByLabel('Add places that the job does not have').check()
        await page.getByText('3 points added').waitFor()
        await page.getByRole('button', { name: 'Take it in' }).click()
        await page.locator('.table-body .line-id', { hasText: 'S3' }).waitFor()
        strictEqual((await page.locator('.table-body .line-marked').allTextContents()).map((text) => text.trim()).join(' '), 'IP44 IP2X IP54')
        await page.getByRole('button', { name: 'Undo: Import of 3 rows' }).click()
        await page.getByText('No points yet').waitFor()
        await page.getByRole('link', { name: 'From a spreadsheet' }).click()
        await giveTable(page, TABLE, 'again.csv')
        await fills(page, 'Tag').waitFor()
        strictEqual(await fills(page, 'Protection').inputValue(), 'marked.ip', 'the choice of columns is remembered')
    } },
    { name: 'a table that cannot be read says where and leaves the job as it is', run: async ({ page }) => {
        await jobWithShop(page)
        await page.getByRole('link', { name: 'From a spreadsheet' }).click()
        await giveTable(page, 'id,place\nS1,"shop\n')
        await page.getByText('row 2, column B').waitFor()
        match(await page.getByRole('alert').innerText(), /nothing comes in[\s\S]*never closed/)
        await giveTable(page, '', 'empty.csv')
        await page.getByRole('alert').waitFor()
        ok(!await page.getByRole('button', { name: 'Take it in' }).isEnabled().catch(() => false), 'nothing to take in')
        await page.goBack()
        await page.getByText('No points yet').waitFor()
    } }
]

// --- jobs in and out ------------------------------------------------------------------------------------------------

const give = (page, name, text) => page.locator('input[aria-label="Job file"]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) })

const BROKEN = [
    ['no JSON', '{\n  "dripstone": 1,\n  "title": "Half\n}', /broken\.json .*line 3/],
    ['another format', '{ "dripstone": 7, "places": [], "points": [] }', /broken\.json .*format/],
    ['something else', '[1, 2, 3]', /broken\.json/],
    ['nothing', '', /broken\.json/],
    ['a point that is none', '{ "dripstone": 1, "places": [], "points": [null] }', /broken\.json .*points/],
    ['points that are no list', '{ "dripstone": 1, "places": [], "points": "P1" }', /broken\.json .*points/]
]

const files = [
    { name: 'a file that is no job is refused with its place, and nothing is lost', run: async ({ page }) => {
        await openExample(page, 'bath-house')
        await page.getByRole('link', { name: 'All jobs' }).click()
        await page.locator('.job-link').waitFor()
        for (const [what, text, said] of BROKEN) {
            await give(page, 'broken.json', text)
            await until(`${what} refused`, async () => said.test(await page.getByRole('alert').innerText().catch(() => '')), 8000)
            strictEqual(await page.locator('.job-link').count(), 1, what)
            await page.reload()
            await page.locator('.job-link').waitFor()
        }
        strictEqual(await page.locator('main h1').innerText(), 'Jobs')
    } },
    { name: 'a job goes after one question, from the list and from the server', run: async ({ page, base }) => {
        await openExample(page, 'bath-house')
        await until('the job on the server', async () => (await listed(base)).length === 1)
        await page.getByRole('link', { name: 'All jobs' }).click()
        await page.getByRole('button', { name: /^Remove Bath/ }).click()
        await page.getByRole('dialog').waitFor()
        await page.keyboard.press('Escape')
        await page.getByRole('dialog').waitFor({ state: 'detached' })
        strictEqual(await page.locator('.job-link').count(), 1, 'Escape removes nothing')
        await page.getByRole('button', { name: /^Remove Bath/ }).click()
        await assertAccessible(page)
        await page.getByRole('button', { name: 'Remove it' }).click()
        await page.getByText('Nothing here yet').waitFor()
        await until('no job on the server', async () => !(await listed(base)).length)
    } }
]

// --- questions, and one code against another ------------------------------------------------------------------------

const answers = [
    { name: 'questions by whom they are for, with the points that wait', run: async ({ page }) => {
        const job = await openExample(page, 'mill-house')
        await goTo(page, job, 'questions')
        await page.getByRole('heading', { name: 'The maker' }).waitFor()
        ok(await page.locator('.question').count() > 3)
        await assertAccessible(page)
        await page.locator('.question-points a').first().click()
        await page.locator('.point-answer .verdict-unknown').first().waitFor()
    } },
    { name: '“will this do instead?” by tapping only, within ten seconds', context: phone, run: async ({ page, base }) => {
        const began = Date.now()
        await page.goto(base)
        await page.getByRole('link', { name: 'Will this do?' }).first().tap()
        const key = (side, group, name) => page.getByRole('region', { name: side }).getByRole('group', { name: group }).getByRole('button', { name, exact: true })
        for (const [side, group, name] of [['Needed', 'Solids', '5'], ['Needed', 'Water', '5'], ['Offered', 'Solids', '6'], ['Offered', 'Water', '7']]) await key(side, group, name).tap()
        await page.locator('.verdict-large.verdict-short').waitFor()
        match(await page.locator('section[aria-live]').innerText(), /Not covered: water 5/)
        ok(Date.now() - began < 10000, `${Date.now() - began} ms`)
        await key('Offered', 'Water', '6').tap()
        await page.locator('.verdict-large.verdict-fits').waitFor()
    } }
]

export default [...versions, ...tables, ...files, ...answers]
