// SPDX-License-Identifier: MIT
//
// Sentences are for people: none names a key of the job document; the keys stand beside them.

import { ok } from 'node:assert'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { openModule } from '../support/wasm.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))

// What looks like a key: parts joined by a dot or an underscore. What is in quotes is quoted from the document.
const KEY = /(?<![\w/.-])(?:(?:box|maker|place|supply|found|asked)\.[a-z]|[a-z][a-z0-9]*_[a-z0-9_]+)/
const SENTENCES = ['deciding', 'remedy', 'question', 'missing', 'mend', 'measure', 'notes', 'remarks', 'cautions']

function* sentencesOf(value) {
    for (const key in value) {
        if (SENTENCES.includes(key)) for (const text of [value[key]].flat()) if (typeof text === 'string') yield text.replace(/"[^"]*"/g, '')
        if (typeof value[key] === 'object') yield* sentencesOf(value[key])
    }
}

function documents() {
    const folders = ['examples', ...readdirSync(`${root}/tests/cases`).filter((name) => !name.includes('.')).map((name) => `tests/cases/${name}`)]
    const files = folders.flatMap((folder) => readdirSync(`${root}/${folder}`).filter((name) => name.endsWith('.json')).map((name) => `${root}/${folder}/${name}`))
    return files.map((file) => readFileSync(file, 'utf8')).filter((text) => /"dripstone": *1\b/.test(text))
}

export default [
    { name: 'no sentence of a finding names a key of the document', run: async () => {
        const ask = await openModule(`${root}/build/wasm/dripstone.wasm`, root)
        const said = documents().flatMap((text) => {
            const answer = JSON.parse(ask('check', text))
            return answer.points ? [...sentencesOf(answer.points), ...sentencesOf(answer.questions)] : []
        })
        ok(said.length > 2000, `${said.length} sentences`)
        for (const text of said) ok(!KEY.test(text), text)
    } },
    { name: 'a remedy that asks for a fact has its key beside it', run: async () => {
        const ask = await openModule(`${root}/build/wasm/dripstone.wasm`, root)
        const points = documents().flatMap((text) => JSON.parse(ask('check', text)).points ?? [])
        const asking = points.filter(({ remedy }) => /^(State|Say) /.test(remedy ?? ''))
        ok(asking.length > 20, `${asking.length} remedies`)
        for (const point of asking) ok(point.remedy_keys.length, `${point.id}: ${point.remedy}`)
    } }
]
