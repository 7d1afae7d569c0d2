// SPDX-License-Identifier: MIT
//
// A real year: node tests/oracle/year_oracle.mjs DAY_YEAR
//
// DAY_YEAR is the program built from tests/oracle/day_year.c. Air temperature and wind are the hourly normals of Seattle in
// the package vega-datasets. It has neither humidity nor sun, so these are worked out: the vapour of a day is that of its
// lowest temperature at 95 % (common practice where only temperatures are known), the sun that of the latitude at 60 % of
// a clear sky, half of the sky clear.
//
// Checked: the program against the slow integration (day_year.c), the balance of heat over the year, what a sealed box
// sheds against the closed form with psychrolib's saturation, and that sun, load, seal and heater show as they must.

import { createRequire } from 'node:module'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { spawnSync } from 'node:child_process'

const packages = createRequire(new URL('../../web/package.json', import.meta.url))
const psychrolib = packages('psychrolib')
psychrolib.SetUnitSystem(psychrolib.SI)

const latitude = 47.6 * Math.PI / 180
const windAtTheBox = 0.4 // of that at 10 m, among buildings

// The package exports its code only, so its data file is looked for beside it.
function normals() {
    const file = packages.resolve.paths('vega-datasets')
        .map((folder) => join(folder, 'vega-datasets/data/seattle-weather-hourly-normals.csv')).find(existsSync)
    const [, ...lines] = readFileSync(file, 'utf8').trim().split('\n')
    return lines.map((line) => {
        const [date, , temperature, wind] = line.split(',')
        return { day: date.slice(0, 10), hour: Number(date.slice(11, 13)), air: Number(temperature), wind: Number(wind) }
    })
}

function sunOnTheFlat(dayOfYear, hour) {
    const declination = 23.45 * Math.PI / 180 * Math.sin(2 * Math.PI * (284 + dayOfYear) / 365)
    const sine = Math.sin(latitude) * Math.sin(declination) + Math.cos(latitude) * Math.cos(declination) * Math.cos((hour - 12) * Math.PI / 12)
    return sine > 0 ? 0.6 * 1000 * sine ** 1.15 : 0
}

// Over water, as day.h has it; near enough for making weather.
const overWater = (temp) => 611.2 * Math.exp(17.62 * temp / (243.12 + temp))

function weather() {
    const hours = normals()
    const lowest = new Map()
    for (const { day, air } of hours) lowest.set(day, Math.min(lowest.get(day) ?? Infinity, air))
    const days = [...lowest.keys()]
    return hours.map(({ day, hour, air, wind }) => {
        const flat = sunOnTheFlat(days.indexOf(day) + 1, hour)
        const humidity = Math.min(0.95 * overWater(lowest.get(day)) / overWater(air), 1)
        return { air, humidity, flat, wall: 0.6 * flat, wind: windAtTheBox * wind, clear: 0.5 }
    })
}

const findings = []
let checks = 0
function check(holds, text) {
    checks++
    if (!holds) findings.push(text)
}

// V (rho(closing) - rho(coldest wall)), g; the inside's own temperature does not matter.
function shed({ litres, closing_c: closing, closing_humidity: humidity, coldest }) {
    const density = (pressure, temp) => pressure / (461.5 * (temp + 273.15))
    return litres * (density(humidity * psychrolib.GetSatVapPres(closing), closing) - density(psychrolib.GetSatVapPres(coldest), coldest))
}

const hours = weather()
const input = hours.map(({ air, humidity, flat, wall, wind, clear }) => `${air} ${humidity} ${flat} ${wall} ${wind} ${clear}\n`).join('')
const run = spawnSync(process.argv[2], { input, encoding: 'utf8', maxBuffer: 1 << 26 })
if (run.status !== 0) {
    console.log(`${process.argv[2]}: exit ${run.status} ${run.signal ?? ''} ${run.stderr ?? run.error}`)
    process.exit(1)
}
const boxes = Object.fromEntries(run.stdout.trim().split('\n').map((line) => JSON.parse(line)).map((box) => [box.name, box]))
const { sealed, breathing, vented } = boxes
const warmest = Math.max(...hours.map(({ air }) => air))

check(hours.length > 8700, `${hours.length} hours`)
for (const box of Object.values(boxes)) {
    check(box.fault === '', `${box.name}: ${box.fault}`)
    check(Math.abs(box.in_j - box.out_j - box.stored_j) <= 1e-9 * box.in_j, `${box.name}: heat in ${box.in_j}, out ${box.out_j}, stored ${box.stored_j}`)
    check(box.beside <= 1e-4, `${box.name}: ${box.beside} of its span from the slow integration`)
    check(box.highest > warmest + 2, `${box.name}: only ${box.highest} C in the sun, the air has ${warmest} C`)
    console.log(`${box.name}: ${box.lowest} to ${box.highest} C, ${box.wet_hours} h wet, at most ${box.most_g} g, drained ${box.drained_g} g, ` +
        `${box.limit_hours} h above the limit, ${(box.steps / hours.length).toFixed(2)} steps an hour, beside ${box.beside}`)
}
check(sealed.wet_hours > 100 && sealed.most_g > 0, 'the sealed box stays dry all winter')
check(Math.abs(sealed.most_g / shed(sealed) - 1) < 0.03, `the sealed box sheds ${sealed.most_g} g, by hand ${shed(sealed)} g`)
check(breathing.highest > sealed.highest + 5, 'sixty watts do not show')
check(breathing.most_g <= 5, `more water clings than can: ${breathing.most_g} g`)
check(vented.heater_j > 0, 'the heater never runs')

for (const finding of findings) console.log(finding)
console.log(`${checks - findings.length} passed, ${findings.length} failed`)
process.exit(findings.length ? 1 : 0)
