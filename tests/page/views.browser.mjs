// SPDX-License-Identifier: MIT
//
// Every view of a job: it is there, axe finds nothing, and nothing is wider than the screen; at three sizes and all looks.

import { assertAccessible, goTo, openExample } from '../support/browser.mjs'

const VIEWS = [[], ['point', 'B1'], ['point', 'B1', 'box'], ['place', 'bath'], ['place', 'bath', 'plan'], ['questions'], ['print']]
const SIZES = [[360, 740], [768, 1024], [1440, 900]]

async function assertNoOverflow(page, where) {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
    if (wide > 1) throw new Error(`${where}: ${wide} pixels wider than the screen`)
}

const atSize = ([width, height]) => ({
    name: `every view at ${width} pixels`,
    context: { viewport: { width, height } },
    run: async ({ page }) => {
        const job = await openExample(page, 'mill-house')
        for (const view of VIEWS) {
            await goTo(page, job, ...view)
            await page.waitForTimeout(150)
            await assertNoOverflow(page, view.join('/'))
            await assertAccessible(page)
        }
        await page.evaluate(() => { location.hash = '#/instead?need=IP55&mark=IP67' })
        await page.locator('.verdict-short').waitFor()
        await assertNoOverflow(page, 'instead')
        await assertAccessible(page)
    }
})

const inLook = (theme) => ({
    name: `contrast of the look "${theme}"`,
    run: async ({ page }) => {
        await page.evaluate((word) => localStorage.setItem('theme', word), theme)
        await page.reload()
        const job = await openExample(page, 'mill-house')
        for (const view of [[], ['point', 'H2'], ['place', 'garden']]) {
            await goTo(page, job, ...view)
            await assertAccessible(page)
        }
    }
})

export default [
    ...SIZES.map(atSize),
    ...['light', 'dark', 'sun'].map(inLook),
    { name: 'no data yet', run: async ({ page }) => {
        await page.getByText('Nothing here yet').waitFor()
        await assertAccessible(page)
    } },
    { name: 'twice as large', context: { viewport: { width: 640, height: 450 } }, run: async ({ page }) => {
        const job = await openExample(page, 'mill-house')
        for (const view of VIEWS) {
            await goTo(page, job, ...view)
            await assertNoOverflow(page, view.join('/'))
        }
    } }
]
