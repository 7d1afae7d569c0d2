// SPDX-License-Identifier: MIT
//
// The examples of docs/api.md, run as a reader would: node tests/serve_docs.mjs [--update]
//
// All ```sh blocks but the first, which starts the server, run one after the other in one shell, in a folder with the
// examples beside; what each says is the ```json or ```text block after it, but for ids, tags and times. --update writes
// those blocks anew. docs/api.openapi.json must name the same addresses, methods, questions and statuses as api.md.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'
import { startServer } from './support/serve.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const path = join(root, 'docs/api.md')
const text = readFileSync(path, 'utf8')
const update = process.argv.includes('--update')
const counts = { passed: 0, failed: 0 }

function test(name, fault) {
    counts[fault ? 'failed' : 'passed']++
    console.log(fault ? `not ok ${name}\n  ${String(fault).replaceAll('\n', '\n  ')}` : `ok ${name}`)
}

/* --- examples ----------------------------------------------------------------------------------------------------- */

const blocks = [...text.matchAll(/^```sh\n([^]*?)^```\n(?:\n```(json|text)\n([^]*?)^```\n)?/gm)]
    .map(([whole, command, kind, expected]) => ({ whole, command, kind, expected: expected ?? '' }))
const examples = blocks.slice(1)

const plain = (said) => said
    .replace(/"id": "[a-z0-9]{20}"/g, '"id": "(id)"')
    .replace(/[a-z0-9]{20}(?=[/"\s])/g, '(id)')
    .replace(/\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ/g, '(time)')
    .replace(/\b(\d+)-[0-9a-f]{16}\b/g, '$1-(hash)')

function runExamples(base) {
    const home = mkdtempSync(join(tmpdir(), 'dripstone-api-'))
    cpSync(join(root, 'examples'), join(home, 'examples'), { recursive: true })
    const mark = 'this is the end of one example'
    const script = [`here=${base.replace(/\/$/, '')}`, ...examples.map(({ command }) => `${command}echo "${mark} $?"`)].join('\n')
    const run = spawnSync('bash', ['-c', script], { cwd: home, encoding: 'utf8', timeout: 60000 })
    rmSync(home, { recursive: true })
    return run.stdout.split(new RegExp(`${mark} (\\d+)\n`)).reduce((list, piece, index, all) =>
        index % 2 ? [...list, { said: all[index - 1], status: Number(piece) }] : list, [])
}

function firstLine(command) {
    return command.split('\n').find((line) => line.startsWith('curl')) ?? command.split('\n')[0]
}

const server = await startServer()
const found = runExamples(server.base)
await server.stop()
test('there are as many answers as examples', examples.length >= 7 && found.length === examples.length ? '' : `${found.length} of ${examples.length}`)
let written = text
examples.forEach(({ whole, command, kind, expected }, index) => {
    const { said, status } = found[index] ?? { said: '', status: 1 }
    if (update && kind) written = written.replace(whole, () => `\`\`\`sh\n${command}\`\`\`\n\n\`\`\`${kind}\n${said}\`\`\`\n`)
    const differs = kind ? plain(said) !== plain(expected) : said !== ''
    test(firstLine(command), status !== 0 ? `status ${status}` : differs ? `says\n${said}` : '')
})
if (update && written !== text) writeFileSync(path, written)

/* --- the same for machines ---------------------------------------------------------------------------------------- */

const machine = JSON.parse(readFileSync(join(root, 'docs/api.openapi.json'), 'utf8'))
const rowsOf = (heading) => text.split(`\n## ${heading}\n`)[1].split('\n## ')[0].split('\n').filter((line) => /^\| `?[/a-z\d]/.test(line))
const sorted = (list) => [...new Set(list)].sort().join('\n')

const addresses = rowsOf('Jobs').filter((line) => line.includes('`/api'))
    .map((line) => /`([^`]+)` \| (\w+)/.exec(line)).map(([, address, method]) => `${method} ${address.replace('ID', '{id}').replace('/N', '/{version}')}`)
const questions = rowsOf('Questions').map((line) => /^\| `(\w+)` \| ([^|]+) \|/.exec(line)).filter(Boolean)
    .map(([, name, texts]) => [name, [...texts.matchAll(/`(\w+)`/g)].map(([, each]) => each)])
const papers = rowsOf('Papers').map((line) => /^\| `(\w+)` \| ([^|]+) \|/.exec(line)).filter(Boolean)
    .map(([, name, keys]) => [name, [...keys.matchAll(/`(\w+)`/g)].map(([, each]) => each)])
const statuses = rowsOf('Statuses').map((line) => /^\| (\d+)/.exec(line)).filter(Boolean).map(([, status]) => status)

const operations = Object.entries(machine.paths).flatMap(([address, methods]) =>
    Object.entries(methods).filter(([method]) => /^(get|put|post|delete)$/.test(method)).map(([method, operation]) => ({ address, method: method.toUpperCase(), operation })))
const machineQuestions = operations.filter(({ address }) => !address.startsWith('/api/jobs') && address.startsWith('/api/'))

test('openapi has the addresses of jobs', sorted(addresses) === sorted(operations.filter(({ address }) => address.startsWith('/api/jobs')).map(({ address, method }) => `${method} ${address}`)) ? '' : 'they differ')
test('openapi has the questions and papers, and what each takes', sorted([...questions, ...papers].map(([name, texts]) => `${name} ${texts}`)) ===
    sorted(machineQuestions.map(({ address, operation }) => `${address.slice(5)} ${operation.parameters.map(({ name }) => name)}`)) ? '' : 'they differ')
test('openapi knows no status that api.md does not tell', operations.flatMap(({ operation }) => Object.keys(operation.responses)).filter((status) => !/^20\d$|^default$/.test(status) && !statuses.includes(status)).join())

const table = readFileSync(join(root, 'src/core/answer/answer.c'), 'utf8')
const forms = [...table.matchAll(/^ {4}\{"(\w+)", (?:true|false), \{([^}]*)\}/gm)].map(([, name, texts]) => `${name} ${[...texts.matchAll(/"(\w+)"/g)].map(([, each]) => each)}`)
test('api.md has the questions of the core', forms.length >= 12 && sorted(forms) === sorted(questions.map(([name, texts]) => `${name} ${texts}`)) ? '' : sorted(forms))

const orders = [...readFileSync(join(root, 'src/serve/order.c'), 'utf8').matchAll(/\{DS_ORDER_\w+,\s*"(\w+)",[^{]*\{([^}]*)\}/g)].map(([, name, keys]) => `${name} ${[...keys.matchAll(/"(\w+)"/g)].map(([, each]) => each)}`)
test('api.md has the papers of the server', orders.length >= 4 && sorted(orders) === sorted(papers.map(([name, keys]) => `${name} ${keys}`)) ? '' : sorted(orders))

console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed ? 1 : 0
