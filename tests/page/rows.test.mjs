// SPDX-License-Identifier: MIT
//
// Findings of a list: whole judgings send only what is other, edits lie over them.

import { deepStrictEqual as same, notStrictEqual, strictEqual } from 'node:assert'
import { changedRows, Rows } from '../../web/state/rows.js'

const row = (id, verdict) => ({ id, verdict, needed: 'IP44' })

export default [
    { name: 'only rows that are other than before are sent', run: () => {
        const before = new Map()
        strictEqual(changedRows(before, [row('a', 'fits'), row('b', 'short')]).length, 2)
        same(changedRows(before, [row('a', 'fits'), row('b', 'fits')]), [row('b', 'fits')])
        same(changedRows(before, [row('a', 'fits'), row('b', 'fits')]), [])
        same(changedRows(before, [{ ...row('a', 'fits'), needed: 'IP54' }, row('c', 'fits')]).map(({ id }) => id), ['a', 'c'])
    } },
    { name: 'rows of edits lie over those of the whole until it is judged again', run: () => {
        const first = new Rows().judged([row('a', 'fits'), row('b', 'short')], true)
        const edited = first.edited([row('a', 'short')])
        notStrictEqual(edited, first)
        strictEqual(first.get('a').verdict, 'fits')
        strictEqual(edited.get('a').verdict, 'short')
        strictEqual(edited.get('b').verdict, 'short')
        strictEqual(edited.has('c'), false)
    } },
    { name: 'an edit that came back is not hidden by an edit in between', run: () => {
        const edited = new Rows().judged([row('a', 'fits')], true).edited([row('a', 'short')])
        strictEqual(edited.judged([], true).get('a').verdict, 'fits')
    } },
    { name: 'an answer about an earlier job does not cover later edits', run: () => {
        const edited = new Rows().judged([row('a', 'fits'), row('b', 'fits')], true).edited([row('a', 'short')])
        const late = edited.judged([row('a', 'unknown'), row('b', 'unknown')], false)
        strictEqual(late.get('a').verdict, 'short')
        strictEqual(late.get('b').verdict, 'unknown')
        strictEqual(late.judged([], true).get('a').verdict, 'unknown')
    } }
]
