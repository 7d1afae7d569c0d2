// SPDX-License-Identifier: MIT
//
// What the core says of one place while it is being edited: zones, findings of its points, and problems of its plan.

import { core, Unreadable } from '../core/core.js'
import { documentText, placeOf, pointsAt } from '../state/document.js'
import { placeText } from '../state/judge.js'
import { rowOf, opened } from '../state/opened.js'

// Exact shapes of the zones; null when the plan makes none. Points have no part in them, so they stay out.
export function zonesOf(document, placeId) {
    const place = placeOf(document, placeId)
    return core.zones(documentText({ ...document, places: [place], points: [] }), placeId)?.zones ?? null
}

function judged(document, placeId) {
    try {
        const { points, problems } = core.judge(placeText(document, placeId))
        return { findings: (points ?? []).map(rowOf), problems: problems ?? [] }
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        return { findings: [], problems: [error.problem] }
    }
}

// { findings, problems }. During a drag the opened has just judged these points: only its rows are read then.
export function placeAnswer(document, placeId, live, last) {
    if (!live) return judged(document, placeId)
    const { rows } = opened.get()
    const findings = pointsAt(document, placeId).map(({ id }) => rows.get(id))
    return findings.every((row) => row && 'position' in row) ? { findings, problems: last?.problems ?? [] } : judged(document, placeId)
}

// Problems by the key of the item that they are about; '' for the rest of the plan. In a job of one place it is place 0.
export function problemsByItem(problems, points) {
    const found = new Map()
    const put = (key, problem) => found.set(key, [...(found.get(key) ?? []), problem])
    for (const problem of problems) {
        const [, thing] = /^\/places\/0\/plan\/features\/(\d+)/.exec(problem.pointer ?? '') ?? []
        const [, room] = /^\/places\/0\/plan\/rooms\/(\d+)/.exec(problem.pointer ?? '') ?? []
        const [, point] = /^\/points\/(\d+)\/(?:at_m|size_m|tolerance_m)/.exec(problem.pointer ?? '') ?? []
        if (thing) put(`thing:${thing}`, problem)
        else if (room) put(`room:${room}`, problem)
        else if (/^\/places\/0\/plan\/(outline_m|height_m)/.test(problem.pointer ?? '')) put('room:0', problem)
        else if (point && points[point]) put(`point:${points[point].id}`, problem)
        else if (/^\/places\/0\/plan/.test(problem.pointer ?? '')) put('', problem)
    }
    return found
}
