// SPDX-License-Identifier: MIT
//
// Every C file that is a source, a unit test, a bench or a fuzz target, and every file that the page is built from, is named
// in cmake/, once (most of them in sources.cmake), and nothing else is; every one opens with the licence line. CMake gets no patterns: a file that is
// forgotten shows here.

import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { cFiles, eachLine, filesUnder, read, report, root } from './lib.mjs'

const licence = 'SPDX-License-Identifier: MIT'
const findings = []

const listed = new Map() // path of a source -> where it is named

function readList(list) {
    eachLine(read(list), (line, number) => {
        const words = line.replace(/#.*/, '')
        for (const [path] of words.matchAll(/\b(?:(?:src|tests|bench|fuzz)\/[\w./-]+\.(?:c|S)|web\/[\w./-]+\.(?:js|mjs|css|html|svg|webmanifest))\b/g)) {
            if (listed.has(path)) findings.push(`${list}:${number}: ${path} is listed twice`)
            listed.set(path, `${list}:${number}`)
        }
        if (/\bGLOB/.test(words)) findings.push(`${list}:${number}: files are listed by hand, not by pattern`)
    })
}

filesUnder('cmake').forEach(readList)

const pageFiles = filesUnder('web').filter((path) => /\.(js|mjs|css|html|svg|webmanifest)$/.test(path))
const sources = ['src', 'tests/unit', 'bench', 'fuzz'].flatMap(filesUnder).filter((path) => /\.(c|S)$/.test(path))
for (const path of [...sources, ...pageFiles]) {
    if (!listed.has(path)) findings.push(`${path}:1: not listed in cmake/sources.cmake`)
}
for (const [path, place] of listed) {
    if (!existsSync(join(root, path))) findings.push(`${place}: there is no ${path}`)
}

for (const path of [...cFiles(), ...sources.filter((file) => file.endsWith('.S'))]) {
    if (!read(path).startsWith(`/* ${licence} */`)) findings.push(`${path}:1: does not begin with /* ${licence} */`)
}
const scripts = ['tests', 'tools', 'web', 'cmake'].flatMap(filesUnder).filter((path) => /\.(mjs|js|sh|cmake)$/.test(path))
for (const path of scripts) {
    if (!read(path).split('\n', 3).join('\n').includes(licence)) findings.push(`${path}:1: ${licence} is missing`)
}
report(findings, `${sources.length} sources`)
