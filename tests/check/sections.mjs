// SPDX-License-Identifier: MIT
//
// The core keeps no state: no object file of it has writable static data (.data, .bss, thread-local ones), only
// constants. Needs the release build.

import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { filesUnder, report, root } from './lib.mjs'

// Tables of pointers are constants that the loader fills in: .data.rel.ro stays read-only afterwards.
const writable = (section) => /^\.(t?data|t?bss)\b/.test(section) && !section.startsWith('.data.rel.ro')

const sources = filesUnder('src/core').filter((path) => path.endsWith('.c'))
const findings = []
for (const source of sources) {
    const object = join(root, 'build/release/CMakeFiles/dripstone_core.dir', `${source}.o`)
    if (!existsSync(object)) {
        findings.push(`${source}:1: not in the release build (run tools/build release)`)
        continue
    }
    for (const line of execFileSync('size', ['-A', object], { encoding: 'utf8' }).split('\n')) {
        const [section, size] = line.split(/\s+/)
        if (writable(section) && Number(size) > 0) {
            findings.push(`${source}:1: ${size} bytes of writable static data in ${section}`)
        }
    }
}
if (sources.length === 0) findings.push('src/core:1: no source files')
report(findings, `${sources.length} core objects`)
