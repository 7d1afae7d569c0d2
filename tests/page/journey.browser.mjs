// SPDX-License-Identifier: MIT
//
// A small job from nothing to an answer: by mouse, by keys alone, by touch on a phone.

import { ok, strictEqual } from 'node:assert'
import { soon } from '../support/browser.mjs'

const verdictOf = (page) => page.locator('.point-answer .verdict-large').innerText()

async function pick(page, label, typed) {
    const field = page.getByRole('combobox', { name: label, exact: true })
    await field.click()
    await field.fill(typed)
    await page.locator('.picker-list:visible [role=option]').first().waitFor()
    await field.press('Enter')
}

async function begin(page, tap) {
    await tap(page.getByRole('button', { name: 'New job' }))
    await tap(page.locator('.points-list, main').getByRole('button', { name: 'Place', exact: true }).last())
    await page.getByLabel('Name', { exact: true }).fill('Herb garden')
    await pick(page, 'What it is', 'garden')
    await page.getByLabel('Setting').selectOption('outdoors')
    await tap(page.getByRole('button', { name: 'Add and survey it' }))
    await page.getByRole('heading', { name: 'Herb garden', level: 1 }).waitFor()
}

// A group may stand open already: the next without an answer opens by itself.
async function unfold(page, tap, group) {
    const details = page.locator(`#group-${group}`)
    if (!await details.evaluate((each) => each.open)) await tap(details.locator('summary').first())
}

async function survey(page, tap) {
    await tap(page.locator('.word-main', { hasText: 'Driving rain' }).first())
    for (const [group, word] of [['dust', 'No dust'], ['blows', 'Nothing hits it']]) {
        await unfold(page, tap, group)
        await tap(page.getByRole('button', { name: word }))
    }
    await unfold(page, tap, 'people')
    await tap(page.locator('#group-people .word-main', { hasText: 'People at home' }))
}

async function pointWith(page, tap, ip) {
    await tap(page.getByRole('button', { name: 'Point', exact: true }))
    await page.locator('.point-answer').waitFor()
    await page.getByLabel('Name', { exact: true }).fill('Socket by the bench')
    await page.getByLabel('Name', { exact: true }).press('Enter')
    const field = page.getByLabel('IP code, as printed')
    await field.fill(ip)
    await field.press('Enter')
}

const whole = (tapWith) => async ({ page }) => {
    const tap = tapWith(page)
    await begin(page, tap)
    await survey(page, tap)
    await soon(async () => strictEqual(await page.locator('.need .need-code').first().innerText(), 'IPX4'))
    await pointWith(page, tap, 'IP20')
    await soon(async () => strictEqual(await verdictOf(page), 'short'))
    const field = page.getByLabel('IP code, as printed')
    await field.fill('IP44')
    await field.press('Enter')
    await page.locator('.point-answer .verdict-large.verdict-fits').waitFor()
    // One undo takes back one entry.
    await page.keyboard.press('Escape')
    await page.evaluate(() => document.activeElement.blur())
    await page.keyboard.press('Control+z')
    await page.locator('.point-answer .verdict-large.verdict-short').waitFor()
    await page.keyboard.press('Control+Shift+z')
    await page.locator('.point-answer .verdict-large.verdict-fits').waitFor()
}

// Moves with Tab until what has the focus matches, then presses it: nothing but keys.
async function tabTo(page, matches, most = 150) {
    for (let i = 0; i < most; i++) {
        await page.keyboard.press('Tab')
        const found = await page.evaluate(() => {
            const at = document.activeElement
            return { text: (at.getAttribute('aria-label') ?? at.innerText ?? '').trim(), label: at.labels?.[0]?.innerText?.trim() ?? '', tag: at.tagName }
        })
        if (matches(found)) return
    }
    throw new Error('it cannot be reached by Tab')
}

async function byKeysOnly({ page }) {
    const press = (key) => page.keyboard.press(key)
    await tabTo(page, ({ text }) => text === 'New job')
    await press('Enter')
    await page.locator('h1', { hasText: 'New job' }).waitFor()
    await tabTo(page, ({ text }) => text === 'Place')
    await press('Enter')
    await tabTo(page, ({ label }) => label === 'What it is')
    await page.keyboard.type('garden')
    await press('Enter')
    await tabTo(page, ({ text }) => text === 'Add and survey it')
    await press('Enter')
    await page.locator('.need').waitFor()
    await tabTo(page, ({ text }) => text.startsWith('Driving rain'))
    await press('Space')
    await soon(async () => ok(await page.locator('.word-seen', { hasText: 'Driving rain' }).count(), 'the word is seen'))
    await page.evaluate(() => document.getElementById('main').focus())
    await tabTo(page, ({ text }) => text === 'Point')
    await press('Enter')
    await page.locator('.point-answer').waitFor()
    await tabTo(page, ({ label }) => label === 'IP code, as printed')
    await press('Control+a')
    await page.keyboard.type('IP66')
    await press('Enter')
    await page.locator('.point-facts', { hasText: 'IP66' }).waitFor()
}

// A bathroom from an empty data folder to a judged job: rules, survey, plan with bath and screen, two points, their marks.
const bathroom = (tapWith, isPhone) => async ({ page }) => {
    const tap = tapWith(page)
    const button = (name) => page.getByRole('button', { name, exact: true }).filter({ visible: true }).first()
    await tap(button('New job'))
    await tap(button('Title and rules'))
    await tap(page.getByRole('button', { name: /gb-2022/ }))
    await page.getByLabel('Title', { exact: true }).fill('12 Mill Lane')
    await page.getByLabel('Date of the survey').fill('2026-05-04')
    await tap(button('Close'))
    await tap(page.locator('main').getByRole('button', { name: 'Place', exact: true }).last())
    await page.getByLabel('Name', { exact: true }).fill('Bathroom')
    await pick(page, 'What it is', 'bath')
    await tap(button('Add and survey it'))
    for (const word of ['No water here', 'No dust, no small parts here', 'Nothing hits it here', 'People at home']) await tap(button(word))
    await tap(page.getByRole('link', { name: 'Draw the plan' }))
    await tap(page.getByRole('button', { name: /^Rectangular/ }))
    await tap(button('Begin with this room'))
    for (const thing of ['Bath', 'Screen or partition']) {
        await tap(button('Put in'))
        await tap(page.getByRole('dialog').getByRole('button', { name: thing, exact: true }))
        if (isPhone) await tap(button('Numbers'))
        for (const usual of await page.getByRole('button', { name: /^Usual .* until then$/ }).allInnerTexts()) await tap(button(usual))
        await tap(button('It is measured'))
        await tap(button('Close the numbers'))
    }
    for (const kind of ['Switch', 'Luminaire']) {
        await tap(button('Put in'))
        await tap(page.getByRole('dialog').getByRole('button', { name: kind, exact: true }))
        await page.locator('.plan-row', { hasText: kind }).locator('.verdict-unknown').waitFor({ state: 'attached' }) // nobody has said where it stands
        if (isPhone) await tap(button('Numbers'))
        await tap(button('It is measured'))
        await tap(button('Close the numbers'))
    }
    await tap(page.getByRole('link', { name: 'All of P1 Switch' }))
    await tap(button('Mains, 230 V'))
    for (const [id, ip] of [['P1', 'IP20'], ['P2', 'IP44']]) {
        await page.locator(`main[data-at="point ${id}"] .point-answer`).waitFor()
        const field = page.getByLabel('IP code, as printed')
        await field.fill(ip)
        await field.press('Enter')
        await page.locator('.point-answer .verdict-large').waitFor()
        if (id === 'P1') await tap(button('Next point'))
    }
    await tap(page.getByRole('link', { name: 'All points' }))
    await page.locator('main[data-at="job"] .line-verdict .verdict').nth(1).waitFor()
    await soon(async () => strictEqual((await page.locator('.line-verdict').allInnerTexts()).filter((text) => /fits/.test(text)).length, 2))
    await tap(page.getByRole('link', { name: /^Questions/ }))
    await page.getByText('Nothing is left to ask').waitFor()
}

export default [
    { name: 'a bathroom from nothing, by touch on a phone', context: { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true }, run: bathroom(() => (target) => target.tap(), true) },
    { name: 'a bathroom from nothing, by mouse', context: { viewport: { width: 1440, height: 900 } }, run: bathroom(() => (target) => target.click(), false) },
    { name: 'by mouse', run: whole(() => (target) => target.click()) },
    { name: 'by touch on a phone', context: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, run: whole(() => (target) => target.tap()) },
    { name: 'by keys alone', run: byKeysOnly }
]
