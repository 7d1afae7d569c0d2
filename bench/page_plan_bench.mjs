// SPDX-License-Identifier: MIT
//
// How smooth a drag in the plan editor is: node bench/page_plan_bench.mjs [BASE]
//
// A bath and a point are dragged round in a real browser for some seconds, as fast as the mouse reports. Said are the frames
// (time between two, by requestAnimationFrame); what the page's thread worked for one (its own processor time, which other
// work on the machine does not lengthen; 16.7 ms are there at 60 frames a second); and what one step of a drag costs in
// script: judging, zones, drawing. BASE is a page that is served already; without it the program serves its own.

import { goTo, openBrowser, openExample } from '../tests/support/browser.mjs'
import { startServer } from '../tests/support/serve.mjs'

const SECONDS = 4
const STEPS = 400

const given = process.argv[2]
const server = given ? { base: given, stop: async () => {} } : await startServer()
const browser = await openBrowser()

const sorted = (list) => [...list].sort((a, b) => a - b)
const share = (list, part) => sorted(list)[Math.min(list.length - 1, Math.floor(list.length * part))]
const ms = (value) => `${value.toFixed(1)} ms`

// Processor time of the page's thread so far, in ms.
async function worked(debug) {
    const { metrics } = await debug.send('Performance.getMetrics')
    return metrics.find(({ name }) => name === 'TaskDuration').value * 1000
}

// Times between frames while the mouse goes round in a circle with the thing.
async function framesOf(page, [x, y], radius) {
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.evaluate(() => {
        globalThis.frames_ms = []
        let last = performance.now()
        const frame = (now) => {
            globalThis.frames_ms.push(now - last)
            last = now
            globalThis.counting = requestAnimationFrame(frame)
        }
        requestAnimationFrame(frame)
    })
    const end = Date.now() + SECONDS * 1000
    for (let i = 0; Date.now() < end; i++) await page.mouse.move(x + radius * (1 - Math.cos(i / 20)), y - radius * Math.abs(Math.sin(i / 20)))
    const frames = await page.evaluate(() => {
        cancelAnimationFrame(globalThis.counting)
        return globalThis.frames_ms.slice(2)
    })
    await page.mouse.up()
    return frames
}

// What one step costs in script: the event, the core's answers, the new drawing; without painting.
const stepsOf = (page, key) => page.evaluate(async ([name, steps]) => {
    const svg = document.querySelector('.plan-drawing')
    const { left, top, width, height } = document.querySelector(`[data-key="${name}"] path, [data-key="${name}"] circle`).getBoundingClientRect()
    const [x, y] = [left + width * 0.75, top + height * 0.6]
    svg.setPointerCapture = () => {}
    const send = (type, dx, dy) => svg.dispatchEvent(new PointerEvent(type, { pointerId: 1, pointerType: 'mouse', button: 0, clientX: x + dx, clientY: y - dy, bubbles: true }))
    send('pointerdown', 0, 0)
    const times = []
    for (let i = 0; i < steps; i++) {
        const began = performance.now()
        send('pointermove', 10 + 60 * (1 - Math.cos(i / 9)), 60 * Math.abs(Math.sin(i / 9)))
        for (let turn = 0; turn < 8; turn++) await Promise.resolve()
        times.push(performance.now() - began)
        if (i % 10 === 9) await new Promise(requestAnimationFrame)
    }
    send('pointerup', 0, 0)
    return times
}, [key, STEPS])

console.log('place  dragged          frames  median      95 %        longest     over 20 ms  work a frame  a step: median  95 %')
for (const [place, key] of [['bath', 'thing:0'], ['bath', 'point:bath-S1'], ['wet', 'thing:0'], ['pool', 'thing:0']]) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
    const page = await context.newPage()
    await page.goto(server.base)
    await page.locator('h1').first().waitFor()
    const job = await openExample(page, 'bath-house')
    await goTo(page, job, 'place', place, 'plan')
    const shape = page.locator(`[data-key="${key}"]`).locator('path, circle').first()
    await shape.waitFor()
    const box = await shape.boundingBox()
    const debug = await context['newCDPSession'](page)
    await debug.send('Performance.enable', { timeDomain: 'threadTicks' })
    const before = await worked(debug)
    const frames = await framesOf(page, [box.x + box.width * 0.75, box.y + box.height * 0.6], 60)
    const work = (await worked(debug)) - before
    const steps = await stepsOf(page, key)
    const over = frames.filter((time) => time > 20).length
    console.log([place.padEnd(6), key.padEnd(16), String(frames.length).padEnd(7), ms(share(frames, 0.5)).padEnd(11), ms(share(frames, 0.95)).padEnd(11), ms(Math.max(...frames)).padEnd(11),
        `${over} (${((100 * over) / frames.length).toFixed(1)} %)`.padEnd(11), ms(work / frames.length).padEnd(13), ms(share(steps, 0.5)).padEnd(15), ms(share(steps, 0.95))].join(' '))
    await context.close()
}
await browser.close()
await server.stop()
