// SPDX-License-Identifier: MIT
//
// What was put in with a usual size and waits for the tape measure. Kept in this browser, beside the job: the document has
// only figures, and nobody else needs to know which of them were guessed first.
//
//     markUsual(job, place, 'bath'); isUsual(checks.get(), job, place, 'bath'); markMeasured(…)

import { makeStore } from '../state/store.js'

const NAME = 'plan-usual'

function read() {
    try {
        return JSON.parse(localStorage.getItem(NAME)) ?? {}
    } catch {
        return {}
    }
}

export const checks = makeStore(read())

checks.watch(() => localStorage.setItem(NAME, JSON.stringify(checks.get())))

const nameOf = (job, place, id) => [job, place, id].map(encodeURIComponent).join('/')

export const isUsual = (known, job, place, id) => Boolean(id) && known[nameOf(job, place, id)] === true

export const markUsual = (job, place, id) => checks.set((known) => ({ ...known, [nameOf(job, place, id)]: true }))

export const markMeasured = (job, place, id) => checks.set((known) => {
    const { [nameOf(job, place, id)]: was, ...rest } = known
    return was ? rest : known
})
