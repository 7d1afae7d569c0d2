// SPDX-License-Identifier: MIT
//
// Which points are listed, in which order, under which headings; and the few changes that list edits make.

import { deepStrictEqual as same, ok, strictEqual } from 'node:assert'
import { countVerdicts, Heading, idsBetween, linesOf, listedPoints, nextNotFitting, placeSums, startLook } from '../../web/state/lines.js'

const document = {
    places: [{ id: 'yard', name: 'Yard', kind: 'yard' }, { id: 'bath', name: 'Ärztebad', kind: 'bath-room' }],
    points: [
        { id: 'P10', place: 'bath', name: 'Mirror light', kind: 'mirror', marked: [{ ip: 'IP44', ik: 'IK07' }] },
        { id: 'P9', place: 'yard', name: 'Socket', kind: 'socket' },
        { id: 'P100', place: 'bath', kind: 'fan' },
        { id: 'P1', place: 'yard', name: 'Camera', kind: 'camera' }
    ]
}
const row = (id, verdict, needed) => [id, { id, verdict, needed, marked: null, deciding: `because ${verdict}` }]
const rows = new Map([row('P10', 'fits', 'IP44'), row('P9', 'short', 'IP65'), row('P100', 'unknown', 'IP44'), row('P1', 'barred', 'nothing')])
const labelOf = (word) => ({ fan: 'Fan for air', 'bath-room': 'Room with a bath' })[word] ?? word
const asked = (look) => ({ document, rows, labelOf, look: { ...startLook, ...look } })
const ids = (lines) => lines.map((line) => (line instanceof Heading ? `# ${line.label} ${line.count}` : line.id))
const list = (look) => ids(listedPoints(asked(look)))
const grouped = (look) => { const all = asked(look); return ids(linesOf(listedPoints(all), all)) }

export default [
    { name: 'without anything asked the list is the job', run: () => strictEqual(listedPoints(asked({})), document.points) },
    { name: 'text is found in id, name, kind, mark, place and need, without accents', run: () => {
        same(list({ text: 'p100' }), ['P100'])
        same(list({ text: 'camera' }), ['P1'])
        same(list({ text: 'fan for' }), ['P100'])
        same(list({ text: 'ik07' }), ['P10'])
        same(list({ text: 'arztebad' }), ['P10', 'P100'])
        same(list({ text: 'bath light' }), ['P10'])
        same(list({ text: 'ip65' }), ['P9'])
        same(list({ text: 'zzz' }), [])
    } },
    { name: 'verdicts, places and kind filter together', run: () => {
        same(list({ verdicts: new Set(['short', 'barred']) }), ['P9', 'P1'])
        same(list({ verdicts: new Set(['short', 'unknown']), places: new Set(['bath']) }), ['P100'])
        same(list({ kind: 'camera' }), ['P1'])
    } },
    { name: 'a point that is not judged yet is under no verdict', run: () => {
        same(ids(listedPoints({ ...asked({ verdicts: new Set(['fits']) }), rows: new Map() })), [])
        same(ids(listedPoints({ ...asked({}), rows: new Map() })).length, 4)
    } },
    { name: 'numbers in ids are in the order of numbers', run: () => {
        same(list({ sort: { by: 'id', down: false } }), ['P1', 'P9', 'P10', 'P100'])
        same(list({ sort: { by: 'id', down: true } }), ['P100', 'P10', 'P9', 'P1'])
    } },
    { name: 'verdicts are in order from the worst; equals stay in the order of the job', run: () => {
        same(list({ sort: { by: 'verdict', down: false } }), ['P1', 'P9', 'P100', 'P10'])
        same(list({ sort: { by: 'place', down: false } }), ['P10', 'P100', 'P9', 'P1'])
        same(list({ sort: { by: 'needed', down: false } }), ['P10', 'P100', 'P9', 'P1'])
    } },
    { name: 'headings: places in the order of the job, verdicts from the worst, closed ones hide their points', run: () => {
        same(grouped({ group: 'place' }), ['# Yard 2', 'P9', 'P1', '# Ärztebad 2', 'P10', 'P100'])
        same(grouped({ group: 'verdict' }), ['# barred 1', 'P1', '# short 1', 'P9', '# unknown 1', 'P100', '# fits 1', 'P10'])
        same(grouped({ group: 'place', closed: new Set(['yard']) }), ['# Yard 2', '# Ärztebad 2', 'P10', 'P100'])
        same(grouped({ group: 'need' }), ['# IP44 2', 'P10', 'P100', '# IP65 1', 'P9', '# nothing 1', 'P1'])
    } },
    { name: 'sums by verdict and by place', run: () => {
        same(countVerdicts(document.points, rows), { barred: 1, short: 1, unknown: 1, fits: 1 })
        same([...placeSums(document, rows)], [['yard', { count: 2, worst: 'barred' }], ['bath', { count: 2, worst: 'unknown' }]])
        same([...placeSums(document, new Map())], [['yard', { count: 2, worst: undefined }], ['bath', { count: 2, worst: undefined }]])
    } },
    { name: 'a range holds points of both directions and no headings', run: () => {
        const all = asked({ group: 'place' })
        const lines = linesOf(listedPoints(all), all)
        same(idsBetween(lines, 1, 4), ['P9', 'P1', 'P10'])
        same(idsBetween(lines, 4, 1), ['P9', 'P1', 'P10'])
    } },
    { name: 'the next that does not fit, round the end', run: () => {
        strictEqual(nextNotFitting(document.points, rows, 0), 1)
        strictEqual(nextNotFitting(document.points, rows, 3), 1)
        strictEqual(nextNotFitting(document.points.slice(0, 1), rows, -1), -1)
    } },
    { name: 'an edited point is read anew', run: () => {
        const points = document.points.map((point) => (point.id === 'P9' ? { ...point, name: 'Bell' } : point))
        same(ids(listedPoints({ ...asked({ text: 'bell' }), document: { ...document, points } })), ['P9'])
        ok(!list({ text: 'bell' }).length)
    } }
]
