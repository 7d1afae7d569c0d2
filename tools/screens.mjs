// SPDX-License-Identifier: MIT
//
// node tools/screens.mjs: the pictures of the page in README, taken anew from the examples into docs/screens/.

import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { goTo, openBrowser, openExample } from '../tests/support/browser.mjs'
import { startServer } from '../tests/support/serve.mjs'

const out = fileURLToPath(new URL('../docs/screens', import.meta.url))
const DESK = { width: 1200, height: 780 }
const PHONE = { width: 390, height: 780 }

const SCREENS = [
    { name: 'job', example: 'mill-house', view: [], size: DESK },
    { name: 'plan', example: 'bath-house', view: ['place', 'wet', 'plan'], size: DESK },
    { name: 'point', example: 'mill-house', view: ['point', 'H2'], size: PHONE },
    { name: 'survey', example: 'pottery', view: ['place', 'glaze'], size: PHONE },
    { name: 'box', example: 'boxes', view: ['point', 'M1', 'box'], size: DESK }
]

mkdirSync(out, { recursive: true })
const browser = await openBrowser()
for (const { name, example, view, size } of SCREENS) {
    const server = await startServer()
    const context = await browser.newContext({ viewport: size })
    const page = await context.newPage()
    try {
        await page.goto(server.base)
        const job = await openExample(page, example)
        await goTo(page, job, ...view)
        await page.getByText('kept and sent').waitFor({ state: 'attached' })
        await page.waitForTimeout(500)
        await page.screenshot({ path: join(out, `${name}.png`) })
        console.log(`docs/screens/${name}.png`)
    } finally {
        await context.close()
        await server.stop()
    }
}
await browser.close()
