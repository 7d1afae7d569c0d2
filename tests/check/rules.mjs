// SPDX-License-Identifier: MIT
//
// Every rule of every pack has its test: in tests/rules/<pack>.json at least one case it applies to and one it does
// not. (That the cases come out right is the rule tests' business.)

import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { filesUnder, read, report, root } from './lib.mjs'

const findings = []

// The line on which an id stands, for the message; JSON.parse keeps no places.
function lineOf(text, id) {
    const at = text.indexOf(JSON.stringify(id))
    return at < 0 ? 1 : text.slice(0, at).split('\n').length
}

function checkPack(path, pack) {
    const text = read(path)
    const testPath = `tests/rules/${pack.id}.json`
    if (path !== `rules/${pack.id}.json`) findings.push(`${path}:1: holds the pack ${pack.id}: name and id differ`)
    if (!existsSync(join(root, testPath))) {
        findings.push(`${path}:1: its tests ${testPath} are missing`)
        return 0
    }
    const testText = read(testPath)
    const tests = new Map(JSON.parse(testText).map((test) => [test.rule, test]))
    for (const { id } of pack.rules) {
        const test = tests.get(id)
        for (const kind of ['applies', 'not']) {
            if (!test?.[kind]?.length) findings.push(`${path}:${lineOf(text, id)}: ${id} has no "${kind}" case in ${testPath}`)
        }
    }
    const known = new Set(pack.rules.map(({ id }) => id))
    for (const rule of tests.keys()) {
        if (!known.has(rule) && !pack.like) findings.push(`${testPath}:${lineOf(testText, rule)}: there is no rule ${rule}`)
    }
    return pack.rules.length
}

let count = 0
for (const path of filesUnder('rules').filter((file) => file.endsWith('.json'))) {
    const data = JSON.parse(read(path))
    if (data.dripstone_pack) count += checkPack(path, data)
    else if (!data.dripstone_words && !data.dripstone_entries) findings.push(`${path}:1: neither a rule pack, words nor entries`)
}
if (count === 0) findings.push('rules:1: no rules found')
report(findings, `${count} rules`)
