// SPDX-License-Identifier: MIT
//
// What the page asks of the core, by name. The quick ones answer at once; judgeWhole works beside the page.
//
//     await openPageCore()
//     core.judge(text)            findings of a (small) job, docs/findings.md
//     core.judgeWhole(text, opening)   a promise of the brief findings of a job of any size; of the points those that are
//                                 other than in the answer before of the same opening (a number)
//     core.zones(text, placeId)   docs/plan.md; null when the place has none
//     core.rungs({ needed, shown }, form)   the rung picture as SVG; '' when it cannot be drawn

import { openCore } from './module.js'
import { moduleBytes, newWorker } from './parts.js'
import { rules } from './rules.js'

const UNREADABLE = 2

export class Unreadable extends Error {
    constructor(problem) {
        super(problem.problem)
        Object.assign(this, { problem })
    }
}

function value({ status, text }) {
    const answer = JSON.parse(text)
    if (status === UNREADABLE) throw new Unreadable(answer)
    return answer
}

// Pictures are asked for again and again while a list is scrolled.
const DRAWN_MOST = 500

class PageCore {
    constructor(near, far) {
        this.near = near
        this.far = far
        this.waiting = new Map()
        this.asked = 0
        this.drawn = new Map()
        far.onmessage = ({ data }) => this.#answer(data)
    }

    #answer({ id, status, value: answer, error }) {
        const { done, fail } = this.waiting.get(id)
        this.waiting.delete(id)
        if (error) fail(new Error(error))
        else if (status === UNREADABLE) fail(new Unreadable(answer))
        else done(answer)
    }

    judge(text) {
        return value(this.near.ask('check', text))
    }

    judgeWhole(text, opening) {
        const id = ++this.asked
        return new Promise((done, fail) => {
            this.waiting.set(id, { done, fail })
            this.far.postMessage({ id, text, opening })
        })
    }

    read(mark) {
        return value(this.near.ask('read', mark))
    }

    compare(need, mark) {
        return value(this.near.ask('compare', need, mark))
    }

    zones(text, placeId) {
        const { status, text: answer } = this.near.ask('zones', text, placeId)
        return status === UNREADABLE ? null : JSON.parse(answer)
    }

    // The plan of a wet place, or the sheet of a point's box; '' when there is nothing to draw.
    drawPlan(text, placeId) {
        const { status, text: answer } = this.near.ask('draw', text, placeId)
        return status === UNREADABLE ? '' : answer
    }

    drawBox(text, pointId) {
        const { status, text: answer } = this.near.ask('draw_box', text, pointId)
        return status === UNREADABLE ? '' : answer
    }

    // A table into a job (docs/import.md); with faults its "job" is null.
    importTable(text, table, map, addPlaces) {
        return value(this.near.ask(addPlaces ? 'import_places' : 'import', text, table, map))
    }

    merge(base, mine, theirs) {
        return value(this.near.ask('merge', base, mine, theirs))
    }

    rungs({ needed, shown }, form = 'mark') {
        const key = [needed, shown, form].join('\n')
        if (!this.drawn.has(key)) {
            if (this.drawn.size >= DRAWN_MOST) this.drawn.clear()
            const { status, text } = this.near.ask('rungs', needed ?? '', shown ?? '', form)
            this.drawn.set(key, status === UNREADABLE ? '' : text)
        }
        return this.drawn.get(key)
    }
}

export let core

export async function openPageCore() {
    const bytes = await moduleBytes()
    const far = newWorker()
    far.postMessage({ bytes, rules })
    core = new PageCore(await openCore(bytes, rules), far)
    return core
}
