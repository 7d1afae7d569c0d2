// SPDX-License-Identifier: MIT
//
// How long the page takes from an edit to the new verdict on the screen, in Chromium: node bench/page_bench.mjs [BASE]
//
// BASE is where the page is served; without it the program serves it (build/release/dripstone). Jobs of 500 and of 40,000
// points are made from the examples. An edit is given at the start of a frame, as the browser gives keys; the time ends
// when that frame has been computed (events, judging, drawing, styles, layout, paint). Figures: median and 95th percentile
// in milliseconds. "later" is the longest time for which the page did not answer in the seconds after the edit.

import { readFileSync } from 'node:fs'
import { examplePath, openBrowser } from '../tests/support/browser.mjs'
import { startServer } from '../tests/support/serve.mjs'

const EXAMPLES = ['fish-farm', 'mill-house', 'pottery', 'bath-house']
const SIZES = [500, 40000]
const ALIKE = 10 // points in a row that stand at one place, so that a place has some fifty
const EDITS = 60
const FIRST_VIEWS = 12

const examples = EXAMPLES.map((name) => JSON.parse(readFileSync(examplePath(name), 'utf8')))

function jobOf(total) {
    const job = { dripstone: 1, title: `Job of ${total} points`, rules: ['gb-2022'], date: '2026-05-04', places: [], points: [] }
    for (let round = 0; job.points.length < total; round++) {
        const { places, points } = examples[round % examples.length]
        const here = (id) => `${id}-${round}`
        job.places.push(...places.map((place) => ({ ...place, id: here(place.id), name: `${place.name}, ${round + 1}` })))
        for (const point of points) {
            for (let i = 0; i < ALIKE && job.points.length < total; i++) job.points.push({ ...point, id: `P${job.points.length + 1}`, place: here(point.place) })
        }
    }
    return job
}

function figures(times) {
    const sorted = times.toSorted((a, b) => a - b)
    const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1).padStart(6)
    return `median ${at(0.5)}  p95 ${at(0.95)}`
}

// In the page: does it at the start of a frame, resolves to the milliseconds until that frame is done.
const IN_FRAME = `(act) => new Promise((done) => requestAnimationFrame(() => {
    const began = performance.now()
    act()
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => done(performance.now() - began)
    port2.postMessage(0)
}))`

async function timesOf(page, count, pauseMs, act) {
    return page.evaluate(async ([inFrame, body, many, pause]) => {
        const frame = eval(inFrame)
        const step = eval(`(i) => { ${body} }`)
        const times = []
        for (let i = 0; i < many; i++) {
            times.push(await frame(() => step(i)))
            await new Promise((done) => setTimeout(done, pause))
        }
        return times
    }, [IN_FRAME, act, count, pauseMs])
}

// The longest that the page answers nothing in the five seconds after one edit: between two turns of its timer.
const longestLater = (page, act) => page.evaluate(async (body) => {
    const turn = (ms) => new Promise((done) => setTimeout(done, ms))
    eval(body)
    await turn(60)
    let longest = 0
    for (let last = performance.now(), end = last + 5000; last < end;) {
        await turn(0)
        const now = performance.now()
        longest = Math.max(longest, now - last)
        last = now
    }
    return longest
}, act)

const key = (name, mods) => `document.body.dispatchEvent(new KeyboardEvent('keydown', { key: '${name}', bubbles: true, cancelable: true, ${mods} }));`
const BACK_AND_FORTH = `if (i % 2) ${key('z', 'ctrlKey: true, shiftKey: true')} else ${key('z', 'ctrlKey: true')}`
const MARK = `const field = [...document.querySelectorAll('label')].find((label) => /^IP code/.test(label.textContent)).control;
    field.value = i % 2 ? 'IP20' : 'IP66'; field.dispatchEvent(new Event('input', { bubbles: true }));
    Promise.resolve().then(() => field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true })))`

async function judged(page) {
    await page.waitForFunction(() => [...document.querySelectorAll('.line-verdict')].length > 5 && ![...document.querySelectorAll('.line-verdict')].some((cell) => cell.textContent === '…'), null, { timeout: 60000 })
}

// Milliseconds from the address to the first view on the screen, in a profile that has never been here, and again in one
// that has (the page's own files are kept there).
async function firstViews(browser, base) {
    const [fresh, again] = [[], []]
    for (let i = 0; i < FIRST_VIEWS; i++) {
        const context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
        const page = await context.newPage()
        await page.addInitScript(() => {
            const watch = new MutationObserver(() => {
                if (!document.querySelector('main h1')) return
                watch.disconnect()
                requestAnimationFrame(() => setTimeout(() => { globalThis.shown_ms = performance.now() }))
            })
            watch.observe(document, { childList: true, subtree: true })
        })
        for (const times of [fresh, again]) {
            await page.goto(base)
            await page.waitForFunction(() => globalThis.shown_ms !== undefined)
            times.push(await page.evaluate(() => globalThis.shown_ms))
            await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
        }
        await context.close()
    }
    console.log(`     0  ${'first view, new here'.padEnd(34)} ${figures(fresh)}`)
    console.log(`     0  ${'first view, seen before'.padEnd(34)} ${figures(again)}`)
}

async function measure(page, base, size) {
    await page.goto(base)
    await page.locator('input[type=file]').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(jobOf(size))) })
    await page.waitForURL(/#\/job\//)
    await judged(page)
    const list = page.url()
    const say = (what, text) => console.log(`${String(size).padStart(6)}  ${what.padEnd(34)} ${text}`)
    await page.goto(`${list}/point/P1`)
    await page.locator('.point').waitFor()
    say('a mark, on the point’s page', figures(await timesOf(page, EDITS, 20, MARK)))
    await page.goto(list)
    await judged(page)
    say('undo and redo, in the list', figures(await timesOf(page, EDITS, 20, BACK_AND_FORTH)))
    say('a letter in “find”', figures(await timesOf(page, 12, 60, `const field = document.getElementById('points-find'); field.value = 'light by the'.slice(0, i + 1); field.dispatchEvent(new Event('input', { bubbles: true }))`)))
    await timesOf(page, 1, 60, `const field = document.getElementById('points-find'); field.value = ''; field.dispatchEvent(new Event('input', { bubbles: true }))`)
    say('sorting by a column', figures(await timesOf(page, 12, 60, `document.querySelectorAll('.table-sort')[i % 7].click()`)))
    say('scrolling by a screen', figures(await timesOf(page, EDITS, 20, 'scrollBy(0, innerHeight); dispatchEvent(new Event("scroll"))')))
    say('later', `longest ${(await longestLater(page, key('z', 'ctrlKey: true'))).toFixed(0).padStart(5)}`)
}

const [given] = process.argv.slice(2)
const server = given ? undefined : await startServer()
const browser = await openBrowser()
console.log('points  what                               milliseconds')
await firstViews(browser, given ?? server.base)
for (const size of SIZES) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
    const page = await context.newPage()
    page.setDefaultTimeout(60000)
    page.on('pageerror', (error) => console.error(error.message))
    await measure(page, given ?? server.base, size)
    await context.close()
}
await browser.close()
await server?.stop()
