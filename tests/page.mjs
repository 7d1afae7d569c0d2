// SPDX-License-Identifier: MIT
//
// The page in a real browser: node tests/page.mjs [NAME …]
//
// Pure modules first: every tests/page/*.test.mjs exports a list of { name, run }. Then every tests/page/*.browser.mjs, the
// same with run({ page, context, base, server }): a fresh browser profile and an empty data folder each, page.goto(base)
// done. A test fails by throwing. One line each, then the total.

import { existsSync, readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { join } from 'node:path'
import { openBrowser } from './support/browser.mjs'
import { startServer } from './support/serve.mjs'

const folder = fileURLToPath(new URL('page', import.meta.url))
const wanted = process.argv.slice(2)
const isWanted = (name) => !wanted.length || wanted.some((word) => name.includes(word))

let passed = 0
let failed = 0

async function judge(name, run) {
    try {
        await run()
        passed++
        console.log(`ok ${name}`)
    } catch (error) {
        failed++
        console.log(`not ok ${name}\n  ${String(error.stack ?? error).replaceAll('\n', '\n  ')}`)
    }
}

async function testsIn(ending) {
    const files = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith(ending)).sort() : []
    const lists = []
    for (const file of files) {
        const { default: tests } = await import(join(folder, file))
        lists.push(...tests.map((test) => ({ ...test, name: `${file.slice(0, -ending.length)}: ${test.name}` })))
    }
    return lists.filter(({ name }) => isWanted(name))
}

async function inBrowser(browser, test) {
    const server = await startServer()
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...test.context })
    const faults = []
    try {
        const page = await context.newPage()
        page.setDefaultTimeout(8000)
        page.on('pageerror', (error) => faults.push(error.message))
        await page.goto(server.base)
        await page.locator('h1').first().waitFor()
        await test.run({ page, context, base: server.base, server })
        if (faults.length) throw new Error(`the page threw: ${faults.join('; ')}`)
    } finally {
        await context.close()
        await server.stop()
    }
}

for (const test of await testsIn('.test.mjs')) await judge(test.name, test.run)
const browserTests = await testsIn('.browser.mjs')
if (browserTests.length) {
    const browser = await openBrowser()
    for (const test of browserTests) await judge(test.name, () => inBrowser(browser, test))
    await browser.close()
}
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed ? 1 : 0
