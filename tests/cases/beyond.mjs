// SPDX-License-Identifier: MIT
//
// Cases that no folder can say: output that cannot be written, a reader that goes away, files too large to keep here,
// and the completion as a shell runs it. Each gives undefined, or what is wrong.

import { execFileSync, spawn, spawnSync } from 'node:child_process'
import {
    closeSync, existsSync, lstatSync, mkdirSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync, symlinkSync, truncateSync, writeFileSync
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const env = { PATH: process.env.PATH, LANG: 'C.UTF-8' }

async function inFolder(work) {
    const folder = mkdtempSync(join(tmpdir(), 'beyond-'))
    try {
        return await work(folder)
    } finally {
        rmSync(folder, { recursive: true })
    }
}

const say = (result) => `status ${result.status}, "${result.stdout}", "${result.stderr}"`

// A disk that is full: the failure is said and the status is 2, however well the job fits.
function fullDisk({ program, root }) {
    if (!existsSync('/dev/full')) return undefined
    const full = openSync('/dev/full', 'w')
    const result = spawnSync(program, ['seen'], { cwd: root, env, stdio: ['ignore', full, 'pipe'], encoding: 'utf8' })
    closeSync(full)
    return result.status === 2 && /could not be written/.test(result.stderr) ? undefined : say(result)
}

// A reader that leaves early ends the output without a word.
function closedPipe({ program, root }) {
    const child = spawn(program, ['check', 'examples/mill-house.json', '--json'], { cwd: root, env, stdio: ['ignore', 'pipe', 'pipe'] })
    let stderr = ''
    child.stderr.on('data', (bytes) => { stderr += bytes })
    child.stdout.once('data', () => child.stdout.destroy())
    return new Promise((done) => child.on('close', (status, signal) =>
        done(status === 1 && !signal && stderr === '' ? undefined : `status ${status}, signal ${signal}, "${stderr}"`)))
}

// One byte over 512 MiB is refused by its size alone, unread.
const tooLarge = ({ program }) =>
    inFolder((folder) => {
        const file = join(folder, 'large.json')
        writeFileSync(file, '')
        truncateSync(file, 512 * 1024 * 1024 + 1)
        const result = spawnSync(program, ['check', file], { env, encoding: 'utf8' })
        return result.status === 2 && result.stdout === '' && /512 MiB/.test(result.stderr) ? undefined : say(result)
    })

// A hundred megabytes that are no job: an answer, not a crash.
const hundredMegabytes = ({ program }) => {
    const result = spawnSync(program, ['check', '-'], { env, input: Buffer.alloc(100_000_000, '['), encoding: 'utf8' })
    return result.status === 2 && result.stdout === '' && /standard input:1:\d+: values are nested/.test(result.stderr) ? undefined : say(result)
}

// A long list of points that are all unknown is still printed whole.
const manyPoints = ({ program }) => {
    const points = Array.from({ length: 20000 }, (_, i) => ({ id: `P${i}`, place: 'p', kind: 'socket-outlet' }))
    const job = { dripstone: 1, rules: ['iec'], places: [{ id: 'p', kind: 'office', setting: 'indoors' }], points }
    const result = spawnSync(program, ['check', '-'], { env, input: JSON.stringify(job), encoding: 'utf8', maxBuffer: 1 << 28 })
    const named = (result.stdout.match(/^\? unknown +P\d+/gm) ?? []).length
    return result.status === 1 && named === 20000 ? undefined : `status ${result.status}, ${named} points named`
}

// A dangling link is a name that is taken: neither followed nor replaced.
const danglingLink = ({ program }) =>
    inFolder((folder) => {
        symlinkSync('nowhere', join(folder, 'job.json'))
        const result = spawnSync(program, ['new', '-o', join(folder, 'job.json')], { env, encoding: 'utf8' })
        const left = readdirSync(folder).join(' ')
        return result.status === 2 && left === 'job.json' ? undefined : `${say(result)}, left: ${left}`
    })

// What is no ordinary file is never replaced, not even by --force: a pipe, a directory, a link that leads nowhere.
const noOrdinaryFile = ({ program }) =>
    inFolder((folder) => {
        execFileSync('mkfifo', [join(folder, 'pipe')])
        mkdirSync(join(folder, 'directory'))
        symlinkSync(join(folder, 'nowhere'), join(folder, 'link'))
        symlinkSync(join(folder, 'pipe'), join(folder, 'pipe-link'))
        const says = { pipe: /no ordinary file/, 'pipe-link': /no ordinary file/, directory: /is a directory/, link: /leads nowhere/ }
        for (const [name, why] of Object.entries(says)) {
            for (const force of [[], ['--force']]) {
                const kind = lstatSync(join(folder, name)).mode
                const result = spawnSync(program, ['new', '-o', join(folder, name), ...force], { env, encoding: 'utf8' })
                if (result.status !== 2 || !why.test(result.stderr)) return `${name} ${force}: ${say(result)}`
                if (lstatSync(join(folder, name)).mode !== kind) return `${name} ${force}: it was replaced`
            }
        }
        const left = readdirSync(folder).sort().join(' ')
        return left === 'directory link pipe pipe-link' ? undefined : `left: ${left}`
    })

// A device is a thing of the machine: only root can make one to try it on.
const device = ({ program }) =>
    inFolder((folder) => {
        const file = join(folder, 'full')
        if (spawnSync('mknod', [file, 'c', '1', '7']).status !== 0) return undefined
        const result = spawnSync(program, ['new', '-o', file, '--force'], { env, encoding: 'utf8' })
        return result.status === 2 && /no ordinary file/.test(result.stderr) && lstatSync(file).isCharacterDevice() ? undefined : say(result)
    })

// A link to a file stays, and the file that it leads to is written: only with --force, as the file is there.
const linkToFile = ({ program }) =>
    inFolder((folder) => {
        const target = join(folder, 'target.json')
        const link = join(folder, 'link.json')
        writeFileSync(target, 'old')
        symlinkSync('target.json', link)
        const refused = spawnSync(program, ['new', '-o', link], { env, encoding: 'utf8' })
        if (refused.status !== 2 || readFileSync(target, 'utf8') !== 'old') return `without --force: ${say(refused)}`
        const written = spawnSync(program, ['new', '-o', link, '--force'], { env, encoding: 'utf8' })
        const kept = lstatSync(link).isSymbolicLink() && readFileSync(target, 'utf8') !== 'old'
        return written.status === 0 && kept ? undefined : `with --force: ${say(written)}`
    })

// What bash offers after these words.
function completed({ program, root }, ...words) {
    const script = [
        'source completions/dripstone.bash',
        `COMP_WORDS=("$@")`,
        'COMP_CWORD=$(($# - 1))',
        '_dripstone',
        'printf "%s\\n" "${COMPREPLY[@]}"'
    ].join('\n')
    return execFileSync('bash', ['--norc', '-c', script, 'bash', program, ...words], { cwd: root, env, encoding: 'utf8' }).trimEnd().split('\n')
}

function completion(where) {
    const offers = [
        [['co'], ['compare']],
        [['check', '--ex'], ['--explain']],
        [['rules', 'gb-20'], ['gb-2022', 'gb-2018']],
        [['rules', '--pack', 'i'], ['iec']],
        [['new', '--rules', 'gb'], ['gb-2022', 'gb-2018']],
        [['differ', 'job.json', '--before', 'gb-20'], ['gb-2022', 'gb-2018']],
        [['merge', '--fo'], ['--force']],
        [['rules', 'gb-416'], ['gb-416-fingers', 'gb-416-top']],
        [['seen', 'hosed'], ['hosed-directly']],
        [['read', '--colour', 'a'], ['auto', 'always']]
    ]
    const wrong = offers.filter(([words, expected]) => [...new Set(completed(where, ...words))].join(' ') !== expected.join(' '))
    return wrong.length === 0 ? undefined : wrong.map(([words]) => `${words.join(' ')}: ${completed(where, ...words).join(' ')}`).join('\n')
}

// A point's id completes from the job itself.
function completionOfPoints(where) {
    const found = completed(where, 'check', 'examples/mill-house.json', '--explain', 'H')
    return found.includes('H1') && found.includes('H2') && found.every((id) => id.startsWith('H')) ? undefined : found.join(' ')
}

export const beyond = {
    'beyond-full-disk': fullDisk,
    'beyond-closed-pipe': closedPipe,
    'beyond-too-large': tooLarge,
    'beyond-hundred-megabytes': hundredMegabytes,
    'beyond-many-points': manyPoints,
    'beyond-dangling-link': danglingLink,
    'beyond-no-ordinary-file': noOrdinaryFile,
    'beyond-device': device,
    'beyond-link-to-file': linkToFile,
    'beyond-completion': completion,
    'beyond-completion-of-points': completionOfPoints
}
