// SPDX-License-Identifier: MIT
//
// What may stand in no file of the project: folders of somebody's machine, hosts that serve packages, remarks about
// how the project came about. The patterns are written in pieces so that this file passes its own check.

import { eachLine, filesUnder, read, report } from './lib.mjs'

const word = (...pieces) => new RegExp(`(?<![\\w-])${pieces.join('')}(?![\\w-])`, 'i')
const forbidden = [
    [new RegExp(['(?<![\\w.])/(?:wo', 'rk|ro', 'ot|ho', 'me/\\w+|tm', 'p)/'].join('')), 'a folder of one machine'],
    [new RegExp(['(?:npm', 'js|debian|ubuntu|docker|pypi|python', 'hosted|crates)\\.(?:org|io|com)'].join(''), 'i'), 'a host of packages'],
    [new RegExp(['deb', '\\.nodesource|pypi', '\\.'].join(''), 'i'), 'a host of packages'],
    [word('transc', 'ripts?'), 'a word about how the project came about'],
    [word('seed docu', 'ments?'), 'a word about how the project came about'],
    [word('fact she', 'ets?'), 'a word about how the project came about'],
    [word('ta', 'lks?'), 'a word about how the project came about'],
    [word('sess', 'ions?'), 'a word about how the project came about'],
    [word('C', 'EO'), 'a word about how the project came about'],
    [new RegExp(['(?<![\\w/])sha', 'red/'].join(''), 'i'), 'a folder that is not of the project']
]

const findings = []
const paths = filesUnder('.')
for (const path of paths) {
    const text = read(path)
    if (text.includes('\0')) continue
    eachLine(text, (line, number) => {
        for (const [pattern, why] of forbidden) {
            const hit = pattern.exec(line)
            if (hit) findings.push(`${path}:${number}: "${hit[0]}" is ${why}`)
        }
    })
}
if (paths.length === 0) findings.push('.:1: no files found')
report(findings, `${paths.length} files`)
