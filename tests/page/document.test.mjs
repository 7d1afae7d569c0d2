// SPDX-License-Identifier: MIT
//
// The document as the page edits it: replaced, never changed; texts and words.

import { deepStrictEqual as same, notStrictEqual, ok, strictEqual } from 'node:assert'
import * as d from '../../web/state/document.js'
import { jobAround, placeText, touchedPoints } from '../../web/state/judge.js'
import { withValueAt } from '../../web/views/conflict-choice.js'

const job = { dripstone: 1, title: 'A', places: [{ id: 'a' }, { id: 'b' }], points: [{ id: 'P1', place: 'a' }, { id: 'P2', place: 'b' }, { id: 'P3', place: 'b' }] }

export default [
    { name: 'a change replaces what it touches and nothing else', run: () => {
        const next = d.withPoint(job, 'P2', (point) => ({ ...point, name: 'x' }))
        strictEqual(next.points[0], job.points[0])
        notStrictEqual(next.points[1], job.points[1])
        strictEqual(job.points[1].name, undefined)
    } },
    { name: 'empty values take their key away', run: () => {
        same(d.withKey({ a: 1 }, 'a', ''), {})
        same(d.withKey({ a: 1 }, 'a', []), {})
        same(d.withKey({ a: 1 }, 'b', 0), { a: 1, b: 0 })
        same(d.withKey({ a: 1 }, 'b', false), { a: 1, b: false })
    } },
    { name: 'a word is seen, not there, or not said; figures stay', run: () => {
        const seen = d.withWord({ id: 'a' }, 'flooding', 'seen', { depth_m: 0.4 })
        same(seen.seen, [{ word: 'flooding', depth_m: 0.4 }])
        same(d.withWord(seen, 'flooding', 'seen').seen, seen.seen)
        same(d.withWord(seen, 'flooding', 'absent'), { id: 'a', absent: ['flooding'] })
        same(d.withWord(seen, 'flooding', ''), { id: 'a' })
        same(d.withWord({ id: 'a', seen: 'none' }, 'rain', 'absent'), { id: 'a', seen: 'none', absent: ['rain'] })
    } },
    { name: 'ids are free', run: () => {
        strictEqual(d.freeId(job.points, 'P'), 'P4')
        strictEqual(d.freeId([], 'P'), 'P1')
        strictEqual(d.freeId([{ id: 'K2' }, { id: 'K3' }], 'P'), 'K4')
        strictEqual(d.freeId([{ id: 'K2' }, { id: 'K7' }, { id: 'HA1' }], 'P', 'K2'), 'K8')
        strictEqual(d.freeId([{ id: 'pump' }], 'P'), 'P1')
        strictEqual(d.idFromName([{ id: 'glaze-room' }], 'Glaze room', 'place'), 'glaze-room-2')
        strictEqual(d.idFromName([], 'Łódź – 3', 'place'), 'odz-3')
        strictEqual(d.idFromName([], '浴室', 'place'), 'place')
    } },
    { name: 'the text holds the same document', run: () => {
        same(JSON.parse(d.documentText(job)), job)
        same(JSON.parse(d.documentText({ ...job, points: [], places: [] })), { ...job, points: [], places: [] })
    } },
    { name: 'copies stand after what they are copies of, with ids of their own and without what was found', run: () => {
        const two = { ...job, points: [{ id: 'P1', name: 'x', found: { words: ['rust'] } }, { id: 'P2' }, { id: 'pump' }] }
        same(d.withCopies(two, new Set(['P1', 'P2', 'pump'])).points, [two.points[0], { id: 'P3', name: 'x' }, { id: 'P2' }, { id: 'P4' }, { id: 'pump' }, { id: 'pump1' }])
    } },
    { name: 'a place goes with its points', run: () => {
        same(d.withoutPlace(job, 'b').points.map(({ id }) => id), ['P1'])
    } },
    { name: 'an edit touches its point, its place\'s points, or all', run: () => {
        const ids = (after) => touchedPoints(job, after).map(({ id }) => id)
        same(ids(job), [])
        same(ids(d.withPoint(job, 'P2', (point) => ({ ...point }))), ['P2'])
        same(ids(d.withPlace(job, 'b', (place) => ({ ...place }))), ['P2', 'P3'])
        same(ids({ ...job, date: '2026-01-01' }), ['P1', 'P2', 'P3'])
        same(ids({ ...job, places: job.places.slice(0, 1) }), ['P2', 'P3'])
    } },
    { name: 'a job around a point holds its place', run: () => {
        const around = jobAround(job, [job.points[2]])
        same(around.places.map(({ id }) => id), ['b'])
        same(JSON.parse(placeText(job, 'b')).points.length, 2)
    } },
    { name: 'a value is set at a pointer', run: () => {
        same(withValueAt({ a: [{ b: 1 }] }, '/a/0/b', 2), { a: [{ b: 2 }] })
        same(withValueAt({ a: [1, 2] }, '/a/0', undefined), { a: [2] })
        same(withValueAt({ 'x/y': 1 }, '/x~1y', undefined), {})
        ok(withValueAt({ a: 1 }, '', 5) === 5)
    } }
]
