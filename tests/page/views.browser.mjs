// SPDX-License-Identifier: MIT
//
// Every view: axe finds nothing at phone and desk size in every look, nothing is wider than the screen down to 320 pixels and
// when all is twice as large, and whatever is tapped is 44 pixels or more. Keys of one letter can be switched off.

import { ok, strictEqual } from 'node:assert'
import { assertAccessible, goTo, openExample, soon } from '../support/browser.mjs'
import { heldByServer, makeConflict } from '../support/jobs.mjs'

const PHONE = { width: 360, height: 740 }
const DESK = { width: 1440, height: 900 }

// Of the bath-house: [name, parts of the address, what stands there once it is whole].
const VIEWS = [
    ['points', [], '.line-verdict .verdict'],
    ['point', ['point', 'bath-S1'], '.point-answer .verdict-large'],
    ['box', ['point', 'bath-S1', 'box'], '.box-answer'],
    ['place', ['place', 'bath'], '.need'],
    ['plan', ['place', 'bath', 'plan'], '.plan-drawing [data-key]'],
    ['questions', ['questions'], '.question'],
    ['print', ['print'], '.print-place'],
    ['import', ['import'], 'main[data-at=import] .primary'],
    ['versions', ['versions'], '.job-row']
]
const CONFLICT = ['conflict', ['conflict'], '.conflict-side']
const ELSEWHERE = [
    ['jobs', '#/', '.job-link'],
    ['instead', '#/instead?need=IP55&mark=IP67', '.verdict-large.verdict-short'],
    ['a need that cannot be read', '#/instead?need=tight&mark=IP67', '.instead h2'],
    ['no such job', '#/job/none', 'main a.button']
]

const TABLE = 'Tag,Room,Type,Strange\nP1,bath,socket-outlet,1\nP2,nowhere,socket-outlet,2\n'

async function* eachView(page, job, views = VIEWS) {
    for (const [name, parts, whole] of views) {
        await goTo(page, job, ...parts)
        await page.locator(whole).first().waitFor()
        if (name === 'import') {
            await page.locator('input[aria-label="CSV file"]').setInputFiles({ name: 'a.csv', mimeType: 'text/csv', buffer: Buffer.from(TABLE) })
            await page.locator('.import-columns').waitFor()
        }
        yield name
    }
}

async function* eachElsewhere(page) {
    for (const [name, address, whole] of ELSEWHERE) {
        await page.evaluate((hash) => { location.hash = hash }, address)
        await page.locator(whole).first().waitFor()
        yield name
    }
}

async function open(page, base) {
    const job = await openExample(page, 'bath-house')
    await heldByServer(base, 'Ceiling light')
    return job
}

const said = (name, size, act) => act().catch((fault) => { throw new Error(`${name} at ${size.width}: ${fault.message}`) })

// --- axe ------------------------------------------------------------------------------------------------------------

async function assertAllAccessible(page, base, size) {
    await page.setViewportSize(size)
    const job = await open(page, base)
    for await (const name of eachView(page, job)) await said(name, size, () => assertAccessible(page))
    for await (const name of eachElsewhere(page)) await said(name, size, () => assertAccessible(page))
    return job
}

const inLook = (theme) => ({
    name: `axe finds nothing in any view, look “${theme}”`,
    run: async ({ page, base }) => {
        await page.evaluate((word) => localStorage.setItem('theme', word), theme)
        await page.reload()
        await page.locator('h1').first().waitFor()
        strictEqual(await page.evaluate(() => document.documentElement.dataset.theme), theme)
        const job = await assertAllAccessible(page, base, DESK)
        await page.setViewportSize(PHONE)
        for await (const name of eachView(page, job)) await said(name, PHONE, () => assertAccessible(page))
        for await (const name of eachElsewhere(page)) await said(name, PHONE, () => assertAccessible(page))
        await page.evaluate((hash) => { location.hash = hash }, `#/job/${job}`)
        await page.locator('.line-verdict .verdict').first().waitFor()
        await makeConflict(page, base, job)
        for (const size of [PHONE, DESK]) {
            await page.setViewportSize(size)
            for await (const name of eachView(page, job, [CONFLICT])) await said(name, size, () => assertAccessible(page))
        }
    }
})

// [name, where, button]
const DIALOGS = [
    ['title and rules', [], 'Title and rules'],
    ['new point', [], 'Point'],
    ['new place', [], 'Place'],
    ['looks and keys', [], 'Looks and keys'],
    ['put in', ['place', 'bath', 'plan'], 'Put in'],
    ['drawing', ['place', 'bath', 'plan'], 'Drawing']
]

const dialogs = { name: 'axe finds nothing in the dialogs', run: async ({ page, base }) => {
    const job = await open(page, base)
    for (const size of [PHONE, DESK]) {
        await page.setViewportSize(size)
        for (const [name, parts, button] of DIALOGS) {
            await goTo(page, job, ...parts)
            if (name === 'new place') await page.locator('.places').evaluate((each) => { each.open = true })
            await page.getByRole('button', { name: button, exact: true }).first().click()
            await page.locator('dialog[open]').waitFor()
            await said(name, size, () => assertAccessible(page))
            await assertFits(page, name)
            await page.keyboard.press('Escape')
            await page.locator('dialog[open]').waitFor({ state: 'detached' })
        }
    }
} }

// --- width, size ----------------------------------------------------------------------------------------------------

async function assertFits(page, where) {
    const wide = await page.evaluate(() => Math.max(document.documentElement.scrollWidth - document.documentElement.clientWidth, ...[...document.querySelectorAll('dialog[open]')].map((each) => each.scrollWidth - each.clientWidth)))
    ok(wide <= 1, `${where}: ${wide} pixels wider than the screen`)
    const cut = await page.evaluate(() => [...document.querySelectorAll('button, a.button')].filter((each) => each.clientWidth > 0 && each.scrollWidth > each.clientWidth + 1).map((each) => each.innerText.replace(/\s+/g, ' ')))
    strictEqual(cut.join(', '), '', `${where}: words that their button cuts`)
}

const fitting = (what, width, height) => ({ name: `nothing is wider than the screen: ${what}`, context: { viewport: { width, height } }, run: async ({ page, base }) => {
    const job = await open(page, base)
    for await (const name of eachView(page, job)) await assertFits(page, name)
    for await (const name of eachElsewhere(page)) await assertFits(page, name)
} })

// What can be tapped and is smaller than 44 by 44 pixels: but for links within a sentence, and boxes and radios whose label
// or cell is part of the target. Things of a plan may be any size: each is reached in the list beside it too.
const SMALL = () => {
    const shown = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && element.getClientRects().length > 0
    const area = (element) => {
        const box = element.getBoundingClientRect()
        const around = element.matches('input[type=checkbox], input[type=radio]') ? element.closest('label, .line-choose, .field-check')?.getBoundingClientRect() : null
        return around && around.height >= box.height ? around : box
    }
    const isInText = (element) => element.tagName === 'A' && getComputedStyle(element).display === 'inline'
    const name = (element) => `${element.tagName.toLowerCase()}.${element.className} “${(element.getAttribute('aria-label') ?? element.innerText ?? '').trim().slice(0, 30)}”`
    return [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [role=option]')]
        .filter((element) => shown(element) && !isInText(element) && !element.closest('.skip, [hidden], .plan-drawing') && !element.matches('[tabindex="-1"]'))
        .filter((element) => { const { width, height } = area(element); return width < 43.5 || height < 43.5 })
        .map((element) => { const { width, height } = area(element); return `${name(element)} ${Math.round(width)} × ${Math.round(height)}` })
}

const targets = { name: 'whatever is tapped is 44 pixels or more', context: { viewport: PHONE, hasTouch: true, isMobile: true }, run: async ({ page, base }) => {
    const job = await open(page, base)
    const small = []
    const look = async (name) => small.push(...(await page.evaluate(SMALL)).map((each) => `${name}: ${each}`))
    for await (const name of eachView(page, job)) {
        await page.evaluate(() => document.querySelectorAll('main details').forEach((each) => { each.open = true }))
        await look(name)
    }
    for await (const name of eachElsewhere(page)) await look(name)
    strictEqual([...new Set(small)].join('\n'), '')
} }

// --- keys of one letter ---------------------------------------------------------------------------------------------

const letters = { name: 'keys of one letter can be switched off, and stay off', run: async ({ page, base }) => {
    await open(page, base)
    await page.locator('.line-verdict .verdict').first().waitFor()
    await page.keyboard.press('?')
    const box = page.getByLabel('Keys of one letter or sign')
    await box.waitFor()
    ok(await page.locator('kbd').getByText('N', { exact: true }).count(), 'it is told')
    await box.uncheck()
    await page.locator('kbd').getByText('N', { exact: true }).waitFor({ state: 'detached' })
    ok(await page.locator('kbd').getByText('Ctrl Z', { exact: true }).count(), 'those with Ctrl stay')
    await page.keyboard.press('Escape')
    await page.locator('dialog[open]').waitFor({ state: 'detached' })
    await page.reload()
    await page.locator('.line-verdict .verdict').first().waitFor()
    for (const key of ['?', 'a', 'l', '/', 'n']) await page.keyboard.press(key)
    strictEqual(await page.locator('dialog[open]').count(), 0)
    ok(await page.evaluate(() => document.activeElement.id !== 'points-find'))
    await page.getByRole('button', { name: 'Looks and keys' }).click()
    await box.check()
    await page.keyboard.press('Escape')
    await page.locator('dialog[open]').waitFor({ state: 'detached' })
    await page.keyboard.press('/')
    await soon(async () => strictEqual(await page.evaluate(() => document.activeElement.id), 'points-find'))
} }

export default [
    ...['light', 'dark', 'sun'].map(inLook),
    dialogs,
    fitting('phone', 360, 740),
    fitting('tablet', 768, 1024),
    fitting('small desk', 1120, 700),
    fitting('desk', 1440, 900),
    fitting('1280 pixels at 200 %', 640, 450),
    fitting('320 pixels', 320, 640),
    targets,
    letters,
    { name: 'no data yet', run: async ({ page }) => {
        await page.getByText('Nothing here yet').waitFor()
        await assertAccessible(page)
    } }
]
