// SPDX-License-Identifier: MIT
//
// Functions that one can hold in one's head: none over 60 lines, nine in ten within 45, half within 15 (counted from
// the signature to the closing brace); files within 450 lines.

import { bare, cFiles, eachLine, filesUnder, read, report } from './lib.mjs'

const longestFunction = 60
const longestFile = 450

// Path, or path:function, and the reason why it may be longer. Empty is the aim.
const exceptions = new Map([])

const findings = []

// Functions of a file laid out by clang-format: a line at the margin begins the signature, "{" and "}" at the margin
// hold the body.
function functionsOf(path) {
    const functions = []
    let start = 0
    let signature = ''
    let open = false
    eachLine(bare(read(path), { strings: true }), (line, number) => {
        if (open) {
            if (line.startsWith('}')) {
                functions.push({ path, line: start, name: /(\w+)\s*\(/.exec(signature)[1], lines: number - start + 1 })
                open = false
                signature = ''
            }
        } else if (line === '{' && /\w\s*\(/.test(signature)) {
            open = true
        } else if (/^\w/.test(line)) {
            start = number
            signature = line
        } else if (/^[ \t]/.test(line)) {
            signature += line
        }
    })
    return functions
}

function checkFunctions(functions) {
    for (const { path, line, name, lines } of functions) {
        if (lines > longestFunction && !exceptions.has(`${path}:${name}`)) {
            findings.push(`${path}:${line}: ${name} has ${lines} lines, more than ${longestFunction}`)
        }
    }
}

function checkShare(functions, limit, least) {
    const share = functions.filter(({ lines }) => lines <= limit).length / functions.length
    if (share < least) {
        const percent = (value) => `${Math.floor(100 * value)}%`
        findings.push(`src:1: only ${percent(share)} of the functions keep within ${limit} lines, not ${percent(least)}`)
        const over = functions.filter(({ lines }) => lines > limit).sort((a, b) => a.lines - b.lines)
        for (const { path, line, name, lines } of over.slice(0, 20)) {
            findings.push(`${path}:${line}: ${name}, ${lines} lines, is among the shortest above ${limit}`)
        }
    }
    return share
}

function checkFile(path) {
    const lines = read(path).split('\n').length - 1
    if (lines > longestFile && !exceptions.has(path)) {
        findings.push(`${path}:${longestFile + 1}: the file has ${lines} lines, more than ${longestFile}`)
    }
}

const scripts = ['src', 'tests', 'tools', 'web'].flatMap(filesUnder).filter((path) => /\.(mjs|js|sh|css)$/.test(path))
const all = cFiles().flatMap(functionsOf)
const ours = all.filter(({ path }) => path.startsWith('src/'))
for (const path of [...cFiles(), ...scripts]) checkFile(path)
checkFunctions(all)
checkShare(ours, 45, 0.9)
checkShare(ours, 15, 0.5)

const middle = ours.map(({ lines }) => lines).sort((a, b) => a - b)[Math.floor(ours.length / 2)]
report(findings, `${ours.length} functions in src, the middle one has ${middle} lines`)
