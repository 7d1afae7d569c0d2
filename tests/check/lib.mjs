// SPDX-License-Identifier: MIT
//
// What the checks share: the project's files, C text without comments, and the report. A check is one test: it prints
// what it found as file:line: text, then `1 passed, 0 failed` or `0 passed, 1 failed`.

import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'

// DS_CHECK_ROOT points the checks at another tree: tests/check/planted.mjs tries them on one full of faults.
export const root = process.env.DS_CHECK_ROOT ?? join(dirname(fileURLToPath(import.meta.url)), '..', '..')

const skipped = new Set(['.git', 'build', 'node_modules'])

// Every file under a folder of the project, as paths from the root, sorted; a folder that is not there has none.
export function filesUnder(folder) {
    const found = []
    const walk = (dir) => {
        for (const entry of readdirSync(dir, { withFileTypes: true })) {
            const path = join(dir, entry.name)
            if (entry.isDirectory() && !skipped.has(entry.name)) walk(path)
            else if (entry.isFile()) found.push(relative(root, path))
        }
    }
    try {
        walk(join(root, folder))
    } catch (error) {
        if (error.code !== 'ENOENT') throw error
    }
    return found.sort()
}

export const read = (path) => readFileSync(join(root, path), 'utf8')

export const isC = (path) => /\.[ch]$/.test(path)

export const cFiles = () => ['src', 'tests', 'bench', 'fuzz'].flatMap(filesUnder).filter(isC)

// C text with comments blanked, and with `strings` also the insides of literals; lines keep their numbers.
export function bare(text, { strings = false } = {}) {
    const blank = (piece) => piece.replace(/[^\n]/g, ' ')
    return text.replace(/\/\*[^]*?\*\/|\/\/[^\n]*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'/g, (piece) => {
        if (piece.startsWith('/')) return blank(piece)
        return strings ? piece[0] + blank(piece.slice(1, -1)) + piece[0] : piece
    })
}

// Calls see(line, number) for each line of a text.
export function eachLine(text, see) {
    text.split('\n').forEach((line, index) => see(line, index + 1))
}

export function report(findings, summary) {
    for (const finding of findings) console.log(finding)
    if (summary) console.log(summary)
    const failed = findings.length > 0
    console.log(failed ? '0 passed, 1 failed' : '1 passed, 0 failed')
    process.exitCode = failed ? 1 : 0
}
