// SPDX-License-Identifier: MIT
//
// The program as its users run it: node tests/cases.mjs [--update] [NAME …]
//
// A case is a folder of tests/cases: `args` (one argument a line; {case} is its folder, {tmp} an empty folder of its
// own), and of these what it needs: `stdin`, `job.json`, `env` (NAME=value, one a line), `before/` (files that stand in
// {tmp} at the start), `expect.txt` (standard output, byte by byte), `expect-stderr.txt` (pieces, one a line, that must
// stand there; without it nothing may), `after/` (files that must stand in {tmp} at the end, and no others), `exit`
// (status, 0 when missing). JSON answers of check, zones, differ, merge, import, read and compare, and drawings, are asked
// of the WebAssembly module and over HTTP too, and must be the same bytes. --update writes expect.txt anew, and for a new
// case also exit and expect-stderr.txt; read the difference before keeping it. What no folder can say stands in
// tests/cases/beyond.mjs.

import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'
import { beyond } from './cases/beyond.mjs'
import { startServer } from './support/serve.mjs'
import { openModule } from './support/wasm.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const folder = join(root, 'tests/cases')
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const modulePath = process.env.DRIPSTONE_WASM ?? join(root, 'build/wasm/dripstone.wasm')
const update = process.argv.includes('--update')
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'))

const textOf = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : undefined)
const linesOf = (text) => (text ?? '').split('\n').filter((line) => line.length > 0)

/* --- differences ------------------------------------------------------------------------------------------------- */

// The lines between the common beginning and end of two texts, at most eight of each, with the number of the first.
function difference(expected, found) {
    const before = expected.split('\n')
    const after = found.split('\n')
    let start = 0
    while (start < before.length && before[start] === after[start]) start++
    let end = 0
    while (end < Math.min(before.length, after.length) - start && before.at(-1 - end) === after.at(-1 - end)) end++
    const part = (lines, sign) => {
        const some = lines.slice(start, lines.length - end)
        const shown = some.slice(0, 8).map((line) => `  ${sign} ${line}`)
        return some.length > 8 ? [...shown, `  ${sign} … ${some.length - 8} more`] : shown
    }
    return [`from line ${start + 1}`, ...part(before, '-'), ...part(after, '+')].join('\n')
}

const byteDifference = (expected, found) =>
    expected === found ? [] : [difference(expected.replaceAll('\x1b', '␛'), found.replaceAll('\x1b', '␛'))]

/* --- one case ---------------------------------------------------------------------------------------------------- */

function environmentOf(home) {
    const own = linesOf(textOf(join(home, 'env'))).map((line) => [line.slice(0, line.indexOf('=')), line.slice(line.indexOf('=') + 1)])
    return { PATH: process.env.PATH, LANG: 'C.UTF-8', COLUMNS: '80', ...Object.fromEntries(own) }
}

function runNative(name, home, tmp) {
    const fill = (arg) => arg.replaceAll('{case}', `tests/cases/${name}`).replaceAll('{tmp}', tmp)
    const hide = (text) => text.replaceAll(tmp, '{tmp}')
    const args = linesOf(textOf(join(home, 'args'))).map(fill)
    const stdin = existsSync(join(home, 'stdin')) ? readFileSync(join(home, 'stdin')) : ''
    const result = spawnSync(program, args, { cwd: root, input: stdin, env: environmentOf(home), encoding: 'utf8', maxBuffer: 1 << 26 })
    if (result.error) throw result.error
    return { args, stdin: stdin.toString('utf8'), status: result.status ?? result.signal, stdout: hide(result.stdout), stderr: hide(result.stderr) }
}

function keepAnew(home, run) {
    const isNew = !existsSync(join(home, 'expect.txt'))
    if (isNew && run.status !== 0) writeFileSync(join(home, 'exit'), `${run.status}\n`)
    if (isNew && run.stderr !== '') writeFileSync(join(home, 'expect-stderr.txt'), run.stderr)
    writeFileSync(join(home, 'expect.txt'), run.stdout)
}

function stderrFaults(home, stderr) {
    const pieces = linesOf(textOf(join(home, 'expect-stderr.txt')))
    if (pieces.length === 0) return stderr === '' ? [] : [`standard error should be empty: ${stderr}`]
    return pieces.filter((piece) => !stderr.includes(piece)).map((piece) => `standard error lacks "${piece}": ${stderr}`)
}

function fileFaults(home, tmp) {
    const kept = join(home, 'after')
    const expected = existsSync(kept) ? readdirSync(kept) : []
    const extra = readdirSync(tmp).filter((file) => !expected.includes(file))
    const wrong = expected.filter((file) => textOf(join(tmp, file)) !== textOf(join(kept, file)))
    return [
        ...(existsSync(kept) ? extra.map((file) => `the file ${file} should not be there`) : []),
        ...wrong.map((file) => `${file}: ${difference(textOf(join(kept, file)), textOf(join(tmp, file)) ?? '(no such file)')}`)
    ]
}

// Two versions, and for each a line of the packs that the options give it.
function askDiffer(ask, args) {
    const packs = { '--before': [], '--after': [] }
    const files = []
    for (let i = 1; i < args.length; i++) {
        if (args[i] in packs) packs[args[i]].push(args[++i])
        else if (args[i] !== '--json') files.push(args[i])
    }
    if (files.includes('-') || files.some((file) => file.startsWith('--'))) return undefined
    const texts = [files[0], files.at(-1)].map((file) => readFileSync(join(root, file), 'utf8'))
    return ask('differ', ...texts, `${packs['--before'].join(' ')}\n${packs['--after'].join(' ')}`)
}

// The same question to another host; undefined when it is none that one answers.
async function askAgain(ask, run) {
    const [what, file, option, place, ...more] = run.args
    if (run.status === 0 && option === '--place' && (what === 'draw' ? more.length === 0 : more.join() === '--json')) {
        return ask(what, readFileSync(join(root, file), 'utf8'), place)
    }
    if (run.status === 0 && what === 'box' && option === '--point' && more.join() === '--svg') {
        return ask('draw_box', readFileSync(join(root, file), 'utf8'), place)
    }
    if (what === 'import' && run.args.at(-1) === '--json' && run.status < 2) {
        const read = (name) => readFileSync(join(root, name), 'utf8')
        const map = run.args.indexOf('--map')
        const adds = run.args.includes('--add-places')
        return ask(adds ? 'import_places' : 'import', read(file), read(option), map < 0 ? '' : read(run.args[map + 1]))
    }
    if (what === 'differ' && run.args.includes('--json') && run.status !== 2) return askDiffer(ask, run.args)
    const plain = run.args.filter((arg) => arg !== '--json')
    if (!run.args.includes('--json') || run.status === 2 || plain.some((arg) => arg.startsWith('--'))) return undefined
    const [command, ...rest] = plain
    if (command === 'check') return ask('check', rest[0] === '-' ? run.stdin : readFileSync(join(root, rest[0]), 'utf8'))
    if (command === 'merge') return ask('merge', ...rest.map((file) => readFileSync(join(root, file), 'utf8')))
    if (command === 'compare') return ask('compare', rest[0], rest[1])
    if (command !== 'read') return undefined
    if (rest.length === 0 && run.stdin.trim() === '') return undefined
    const marks = rest.length > 0 ? rest : run.stdin.split('\n').map((line) => line.trim()).filter((line) => line !== '')
    if (rest.length === 1) return ask('read', rest[0])
    const readings = []
    for (const mark of marks) readings.push((await ask('read', mark)).trimEnd())
    return `[\n${readings.join(',\n')}\n]\n`
}

async function faultsOf(name, hosts) {
    const home = join(folder, name)
    const tmp = mkdtempSync(join(tmpdir(), 'case-'))
    try {
        if (existsSync(join(home, 'before'))) cpSync(join(home, 'before'), tmp, { recursive: true })
        const run = runNative(name, home, tmp)
        if (update) keepAnew(home, run)
        const exit = Number(textOf(join(home, 'exit')) ?? 0)
        const differing = []
        for (const host of hosts) {
            const answer = await askAgain(host.ask, run)
            if (answer === undefined) continue
            host.asked++
            differing.push(...byteDifference(run.stdout, answer).map((text) => `${host.name} differs, ${text}`))
        }
        return [
            ...(run.status === exit ? [] : [`exit status ${run.status}, expected ${exit}\n${run.stderr}`]),
            ...byteDifference(textOf(join(home, 'expect.txt')) ?? '', run.stdout).map((text) => `standard output, ${text}`),
            ...stderrFaults(home, run.stderr),
            ...fileFaults(home, tmp),
            ...differing
        ]
    } finally {
        rmSync(tmp, { recursive: true })
    }
}

/* --- all --------------------------------------------------------------------------------------------------------- */

// Texts go in the body, parted by what no text holds.
const askOver = (base) => async (name, ...texts) => (await fetch(new URL(`api/${name}`, base), { method: 'POST', body: texts.join('\x1e') })).text()

const server = await startServer({ program })
const hosts = [{ name: 'HTTP', ask: askOver(server.base), asked: 0 }]
if (existsSync(modulePath)) hosts.push({ name: 'WebAssembly', ask: await openModule(modulePath, root), asked: 0 })
const isWanted = (name) => wanted.length === 0 || wanted.includes(name)
const counts = { passed: 0, failed: 0 }

function count(name, faults) {
    counts[faults.length > 0 ? 'failed' : 'passed']++
    for (const fault of faults) console.log(`${name}: ${fault}`)
}

for (const name of readdirSync(folder).filter((each) => existsSync(join(folder, each, 'args')) && isWanted(each))) {
    count(name, await faultsOf(name, hosts))
}
for (const [name, test] of Object.entries(beyond).filter(([each]) => isWanted(each))) {
    const fault = await test({ program, root })
    count(name, fault ? [fault] : [])
}
for (const name of wanted.filter((each) => !existsSync(join(folder, each, 'args')) && !(each in beyond))) {
    count(name, ['there is no such case'])
}
await server.stop()
for (const { name, asked } of hosts) console.log(`${asked} answers compared with ${name}`)
if (hosts.length === 1) console.log('no WebAssembly module: compared with none')
console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed > 0 ? 1 : 0
