// SPDX-License-Identifier: MIT
//
// Key pages as pictures, held against those in tests/paper/: node tests/paper_pictures.mjs [--renew] [NAME …]
//
// A page is drawn small and grey and cut into squares of 4 mm; a square differs when it is darker or lighter than before by
// more than what another hinting or a digit does. A few may differ, since versions and dates stand on every page; a column
// that moved, a row that broke otherwise or a picture that is gone shows in dozens. --renew draws the pictures anew: look
// at the difference before keeping it.

import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { deflateSync, inflateSync } from 'node:zlib'
import { finish, test } from './support/judge.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = process.env.DRIPSTONE ?? join(root, 'build/release/dripstone')
const job = join(root, 'tests/paper/job.json')
const folder = mkdtempSync(join(tmpdir(), 'pictures-'))
const renew = process.argv.includes('--renew')

const DOTS_PER_INCH = 38
const SQUARE = 6 // pixels: 4 mm
const GREY_MOST = 16 // of 255, between two squares
const SQUARES_MOST = 12 // of about 3,600

const PAGES = [
    { name: 'cover', args: ['paper', job], page: 1 },
    { name: 'schedule', args: ['paper', job], page: 3 },
    { name: 'client', args: ['paper', job, '--for', 'client'], page: 1 },
    { name: 'fitter', args: ['paper', job, '--for', 'fitter'], page: 1 },
    { name: 'buyer', args: ['paper', job, '--for', 'buyer', '--size', 'letter'], page: 1 },
    { name: 'inspector', args: ['paper', job, '--for', 'inspector'], page: 1 },
    { name: 'labels', args: ['labels', job], page: 1 },
    { name: 'changes', args: ['differ', job, '--before', 'gb-2018', '--after', 'gb-2022'], page: 1 }
]

function run(command, args) {
    const result = spawnSync(command, args, { maxBuffer: 1 << 26, env: { PATH: process.env.PATH, LANG: 'C.UTF-8', HOME: folder } })
    if (result.status !== 0 && !(args[0] === 'differ' && result.status === 1)) throw new Error(`${command} ${args.join(' ')}: ${result.status} ${result.stderr}`)
    return result.stdout
}

/* --- pictures: { width, height, grey } ------------------------------------------------------------------------------ */

function draw({ name, args, page }) {
    const pdf = join(folder, `${name}.pdf`)
    run(program, [...args, '-o', pdf, '--force'])
    const pgm = run('pdftoppm', ['-gray', '-r', String(DOTS_PER_INCH), '-f', String(page), '-l', String(page), '-singlefile', pdf])
    const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 40).toString('latin1'))
    return { width: Number(width), height: Number(height), grey: pgm.subarray(head.length) }
}

const crcTable = Array.from({ length: 256 }, (_, n) => {
    let c = n
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xEDB88320 ^ (c >>> 1) : c >>> 1
    return c
})

function chunk(type, data) {
    const body = Buffer.concat([Buffer.from(type), data])
    const crc = body.reduce((c, byte) => crcTable[(c ^ byte) & 255] ^ (c >>> 8), -1) ^ -1
    const out = Buffer.alloc(body.length + 8)
    out.writeUInt32BE(data.length, 0)
    body.copy(out, 4)
    out.writeInt32BE(crc, body.length + 4)
    return out
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])

// PNG of eight bits grey, rows unfiltered.
function toPng({ width, height, grey }) {
    const rows = Array.from({ length: height }, (_, y) => Buffer.concat([Buffer.of(0), grey.subarray(y * width, (y + 1) * width)]))
    const head = Buffer.alloc(13)
    head.writeUInt32BE(width, 0)
    head.writeUInt32BE(height, 4)
    head.set([8, 0, 0, 0, 0], 8)
    return Buffer.concat([SIGNATURE, chunk('IHDR', head), chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })), chunk('IEND', Buffer.alloc(0))])
}

// Only what toPng makes.
function fromPng(png) {
    const width = png.readUInt32BE(16)
    const height = png.readUInt32BE(20)
    const rows = inflateSync(png.subarray(41, 41 + png.readUInt32BE(33)))
    return { width, height, grey: Buffer.concat(Array.from({ length: height }, (_, y) => rows.subarray(y * (width + 1) + 1, (y + 1) * (width + 1)))) }
}

/* --- comparing ---------------------------------------------------------------------------------------------------- */

function meanOf({ width, grey }, left, top) {
    let sum = 0
    for (let y = top; y < top + SQUARE; y++) for (let x = left; x < left + SQUARE; x++) sum += grey[y * width + x]
    return sum / SQUARE ** 2
}

// Where two pictures differ, in millimetres from the upper left corner.
function differingSquares(a, b) {
    const found = []
    for (let top = 0; top + SQUARE <= a.height; top += SQUARE) {
        for (let left = 0; left + SQUARE <= a.width; left += SQUARE) {
            if (Math.abs(meanOf(a, left, top) - meanOf(b, left, top)) > GREY_MOST) found.push([left, top].map((at) => Math.round(at * 25.4 / DOTS_PER_INCH)))
        }
    }
    return found
}

// The same picture a little lower: what a comparison must notice.
function lowered({ width, height, grey }, rows) {
    const blank = Buffer.alloc(rows * width, 255)
    return { width, height, grey: Buffer.concat([blank, grey.subarray(0, (height - rows) * width)]) }
}

for (const each of PAGES) {
    await test(`${each.name}: as it was`, () => {
        const path = join(root, `tests/paper/${each.name}.png`)
        const now = draw(each)
        if (renew) writeFileSync(path, toPng(now))
        if (!existsSync(path)) throw new Error('there is no picture of it yet: --renew makes one')
        const then = fromPng(readFileSync(path))
        if (now.width !== then.width || now.height !== then.height) throw new Error(`${now.width} by ${now.height} pixels, before ${then.width} by ${then.height}`)
        const differing = differingSquares(now, then)
        if (differing.length > SQUARES_MOST) throw new Error(`${differing.length} squares differ, the first at (mm) ${differing.slice(0, 5).join('; ')}`)
        const moved = differingSquares(lowered(now, 2), then)
        if (moved.length <= SQUARES_MOST) throw new Error(`a page that stands 1.3 mm lower differs in ${moved.length} squares only: this proves nothing`)
    })
}

rmSync(folder, { recursive: true, force: true })
finish()
