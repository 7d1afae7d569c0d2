// SPDX-License-Identifier: MIT
//
// The commands that README shows are run as a newcomer would, one after the other in an empty folder: each must do its
// work (status 0 or 1; 2 is a refusal) and say something. The examples lie beside. The server gets a free port and is
// ended after two seconds. The drawing that README shows is the one that its command makes.

import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = join(root, 'build/release/dripstone')
const blocks = [...readFileSync(join(root, 'README.md'), 'utf8').matchAll(/^```sh\n([^]*?)^```/gm)]
const lines = blocks.flatMap(([, text]) => text.split('\n')).filter((line) => line.startsWith('build/release/dripstone'))
const home = mkdtempSync(join(tmpdir(), 'dripstone-readme-'))
cpSync(join(root, 'examples'), join(home, 'examples'), { recursive: true })
let failed = lines.length < 5 ? 1 : 0
for (const line of lines) {
    const command = line.replaceAll('build/release/dripstone', program)
    const ended = / serve\b/.test(line) ? `timeout --preserve-status 2 ${command} --port 0` : command
    const run = spawnSync('bash', ['-c', ended], { cwd: home, encoding: 'utf8', env: { ...process.env, XDG_DATA_HOME: home } })
    const silent = run.stdout === '' && !line.includes('>')
    if (run.status > 1 || run.signal || silent) {
        failed++
        console.log(`README.md: ${line}\n  status ${run.status}\n${run.stderr}`)
    }
}
const drawn = readFileSync(join(home, 'wet.svg'), 'utf8')
if (drawn !== readFileSync(join(root, 'docs/wet-room.svg'), 'utf8')) {
    failed++
    console.log('docs/wet-room.svg is not what README draws')
}
rmSync(home, { recursive: true })
console.log(`${lines.length - failed} passed, ${failed} failed`)
process.exitCode = failed > 0 ? 1 : 0
