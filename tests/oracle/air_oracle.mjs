// SPDX-License-Identifier: MIT
//
// Moist air against psychrolib: node tests/oracle/air_oracle.mjs AIR_ECHO
//
// AIR_ECHO is the program built from tests/oracle/air_echo.c. Every state from -100 to 200 C, 1 to 100 % and 60 to 120 kPa:
// saturation and vapour pressure, mixing ratio and humidity, which are formulas there too, to 1e-12; dew point to a few
// thousandths of a kelvin, because there the search ends at 0.001 K; vapour per cubic metre as an ideal gas. Psychrolib
// takes ideal gases as we do.

import { createRequire } from 'node:module'
import { spawnSync } from 'node:child_process'

const psychrolib = createRequire(new URL('../../web/package.json', import.meta.url))('psychrolib')

const formula = 1e-12 // relative
const dewPointK = 0.003
const leastRatio = 1e-7 // psychrolib gives no mixing ratio below this

function* states() {
    for (let temp = -100; temp <= 200; temp += 0.5) {
        for (const humidity of [0.01, 0.05, 0.2, 0.37, 0.5, 0.63, 0.8, 0.95, 1]) {
            for (const pressure of [60000, 101325, 120000]) yield { temp, humidity, pressure }
        }
    }
}

const near = (got, want, relative) => Math.abs(got - want) <= relative * Math.abs(want)

// The vapour of a dew point colder than -100 C is out of range here and there.
function complaint({ temp, humidity, pressure }, [saturation, vapour, dew, mixing, back, density]) {
    const theirs = psychrolib.GetVapPresFromRelHum(temp, humidity)
    if (!near(saturation, psychrolib.GetSatVapPres(temp), formula)) return `saturation ${saturation}, not ${psychrolib.GetSatVapPres(temp)}`
    if (!near(vapour, theirs, formula)) return `vapour ${vapour}, not ${theirs}`
    if (!near(back, psychrolib.GetRelHumFromVapPres(temp, theirs), formula)) return `humidity ${back}`
    if (!near(density, theirs / (461.5 * (temp + 273.15)), formula)) return `density ${density}`
    const ratio = theirs < pressure ? psychrolib.GetHumRatioFromVapPres(theirs, pressure) : NaN
    if (theirs < pressure ? ratio > leastRatio && !near(mixing, ratio, 1e-11) : !Number.isNaN(mixing)) return `mixing ratio ${mixing}, not ${ratio}`
    if (theirs < psychrolib.GetSatVapPres(-100)) return Number.isNaN(dew) ? undefined : `dew point ${dew} of next to nothing`
    const point = psychrolib.GetTDewPointFromVapPres(temp, theirs)
    return Math.abs(dew - point) <= dewPointK ? undefined : `dew point ${dew}, not ${point}`
}

psychrolib.SetUnitSystem(psychrolib.SI)
const all = [...states()]
const input = all.map(({ temp, humidity, pressure }) => `${temp} ${humidity} ${pressure}\n`).join('')
const run = spawnSync(process.argv[2], { input, encoding: 'utf8', maxBuffer: 1 << 28 })
const lines = (run.stdout ?? '').trim().split('\n')
if (run.status !== 0 || lines.length !== all.length) {
    console.log(`${process.argv[2]}: exit ${run.status} ${run.signal ?? ''} ${run.stderr ?? run.error}, ${lines.length} answers`)
    process.exit(1)
}
let failed = 0
for (const [i, state] of all.entries()) {
    const wrong = complaint(state, lines[i].split(' ').map(Number))
    failed += wrong !== undefined
    if (wrong) console.log(`${JSON.stringify(state)}: ${wrong}`)
}
console.log(`${all.length - failed} passed, ${failed} failed`)
process.exit(failed ? 1 : 0)
