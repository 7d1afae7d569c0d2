// SPDX-License-Identifier: MIT
//
// Debian's Chromium without a window, and what tests of the page do again and again.

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'

const require = createRequire(new URL('../../web/package.json', import.meta.url))
const { chromium } = require('playwright-core')

const QUIET = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync']

export const openBrowser = () => chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: QUIET })

export const examplePath = (name) => fileURLToPath(new URL(`../../examples/${name}.json`, import.meta.url))

// Takes an example in through the jobs view, as a person would; resolves when it is open.
export async function openExample(page, name) {
    await page.goto(new URL('#/', page.url()).href)
    await page.locator('input[type=file]').setInputFiles(examplePath(name))
    await page.locator('main[data-at="job"] h1').waitFor()
    return decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())[1])
}

// The page follows an act a little later, on a busy machine later still: asked again until check() throws no more.
export async function soon(check, most = 60000) {
    for (const end = Date.now() + most; ; await new Promise((done) => setTimeout(done, 40))) {
        try {
            return await check()
        } catch (fault) {
            if (Date.now() > end) throw fault
        }
    }
}

const quoted = (text) => text.replace(/["\\]/g, '\\$&')

// Goes to a part of the open job and waits until it is shown: goTo(page, job, 'place', 'bath').
export async function goTo(page, job, ...rest) {
    await page.evaluate((hash) => { location.hash = hash }, `#/job/${[job, ...rest].map(encodeURIComponent).join('/')}`)
    const [view = 'job', id = '', part = ''] = rest
    await page.locator(`main[data-at="${quoted([part || view, id].filter(Boolean).join(' '))}"] h1`).waitFor()
}

const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8')

// Throws when axe finds a violation of WCAG 2.2 A or AA.
export async function assertAccessible(page) {
    // Through the debugger, since the page's own policy lets no strange script in.
    const link = await page.context().newCDPSession(page)
    await link.send('Runtime.evaluate', { expression: axeSource })
    const { result } = await link.send('Runtime.evaluate', {
        expression: `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then((found) =>
            JSON.stringify(found.violations.map(({ id, nodes }) => ({ id, nodes: nodes.slice(0, 3).map(({ html, failureSummary }) => [html.slice(0, 160), failureSummary]) }))))`,
        awaitPromise: true, returnByValue: true
    })
    const violations = JSON.parse(result.value)
    if (violations.length) throw new Error(`axe: ${JSON.stringify(violations, null, 1)}`)
}
