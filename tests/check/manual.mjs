// SPDX-License-Identifier: MIT
//
// Every command and every option that the program's own help names stands in the manual page and in the completion.

import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { read, report, root } from './lib.mjs'

const program = join(root, 'build/release/dripstone')
const help = (...args) => execFileSync(program, args, { encoding: 'utf8' })
const manual = read('docs/dripstone.1').replaceAll('\\-', '-')
const completion = read('completions/dripstone.bash')
const findings = []

const commands = [...help('--help').matchAll(/^ {2}([a-z]+) {2,}\S/gm)].map(([, name]) => name)
if (commands.length < 7) findings.push(`the help names only ${commands.length} commands`)
let options = 0
for (const command of commands) {
    const named = [...help(command, '--help').matchAll(/^ {2}(?:-\w, )?(--[a-z]+)/gm)].map(([, option]) => option)
    options += named.length
    for (const word of [command, ...named]) {
        if (!manual.includes(word)) findings.push(`docs/dripstone.1:1: ${word} (${command}) is missing`)
        if (!completion.includes(word)) findings.push(`completions/dripstone.bash:1: ${word} (${command}) is missing`)
    }
}
report(findings, `${commands.length} commands, ${options} options`)
