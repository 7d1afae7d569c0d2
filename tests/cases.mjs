// SPDX-License-Identifier: MIT
//
// The program as its users run it: node tests/cases.mjs [--update] [NAME …]
//
// A case is a folder of tests/cases: `args` (one argument a line; {case} is its folder), and of these what it needs:
// `stdin`, `job.json`, `expect.txt` (standard output, byte by byte), `expect-stderr.txt` (pieces, one a line, that must
// stand there), `exit` (status, 0 when missing). JSON answers of check, read and compare are asked of the WebAssembly
// module too, and must be the same bytes. --update writes expect.txt anew; read the difference before keeping it.

import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'
import { openModule } from './support/wasm.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const folder = join(root, 'tests/cases')
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const modulePath = process.env.DRIPSTONE_WASM ?? join(root, 'build/wasm/dripstone.wasm')
const update = process.argv.includes('--update')
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'))

const textOf = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : undefined)
const linesOf = (text) => text.split('\n').filter((line) => line.length > 0)

// First line that differs, with its number.
function difference(expected, found) {
    const before = expected.split('\n')
    const after = found.split('\n')
    const at = before.findIndex((line, index) => line !== after[index])
    const index = at < 0 ? before.length : at
    return `line ${index + 1}\n  expected: ${before[index] ?? '(end)'}\n  found:    ${after[index] ?? '(end)'}`
}

function runNative(name) {
    const home = join(folder, name)
    const args = linesOf(readFileSync(join(home, 'args'), 'utf8')).map((arg) => arg.replaceAll('{case}', `tests/cases/${name}`))
    const stdin = existsSync(join(home, 'stdin')) ? readFileSync(join(home, 'stdin')) : ''
    const env = { PATH: process.env.PATH, LANG: 'C.UTF-8', COLUMNS: '80' }
    const result = spawnSync(program, args, { cwd: root, input: stdin, env, encoding: 'utf8', maxBuffer: 1 << 26 })
    return { args, stdin: stdin.toString('utf8'), ...result }
}

// The same question to the module; undefined when it is none that the module answers.
function askModule(module, run) {
    const plain = run.args.filter((arg) => arg !== '--json')
    if (!module || !run.args.includes('--json') || run.status === 2 || plain.some((arg) => arg.startsWith('--'))) return undefined
    const [command, ...rest] = plain
    if (command === 'check') return module.check(rest[0] === '-' ? run.stdin : readFileSync(join(root, rest[0]), 'utf8'))
    if (command === 'read' && rest.length === 1) return module.read(rest[0])
    if (command === 'compare') return module.compare(rest[0], rest[1])
    return undefined
}

function faultsOf(name, module) {
    const home = join(folder, name)
    const run = runNative(name)
    if (update) writeFileSync(join(home, 'expect.txt'), run.stdout)
    const faults = []
    const exit = Number(textOf(join(home, 'exit')) ?? 0)
    if (run.status !== exit) faults.push(`exit status ${run.status ?? run.signal}, expected ${exit}\n${run.stderr}`)
    const expected = textOf(join(home, 'expect.txt')) ?? ''
    if (run.stdout !== expected) faults.push(`standard output, ${difference(expected, run.stdout)}`)
    for (const piece of linesOf(textOf(join(home, 'expect-stderr.txt')) ?? '')) {
        if (!run.stderr.includes(piece)) faults.push(`standard error lacks "${piece}": ${run.stderr}`)
    }
    const answer = askModule(module, run)
    if (answer !== undefined && answer !== run.stdout) faults.push(`WebAssembly differs, ${difference(run.stdout, answer)}`)
    return { faults, asked: answer !== undefined }
}

const module = existsSync(modulePath) ? await openModule(modulePath, root) : undefined
const names = readdirSync(folder).filter((name) => existsSync(join(folder, name, 'args')))
let failed = 0
let asked = 0
for (const name of names.filter((each) => wanted.length === 0 || wanted.includes(each))) {
    const result = faultsOf(name, module)
    asked += result.asked
    failed += result.faults.length > 0
    for (const fault of result.faults) console.log(`${name}: ${fault}`)
}
const ran = wanted.length === 0 ? names.length : wanted.length
console.log(module ? `${asked} answers compared with WebAssembly` : 'no WebAssembly module: compared with none')
console.log(`${ran - failed} passed, ${failed} failed`)
process.exitCode = failed > 0 ? 1 : 0
