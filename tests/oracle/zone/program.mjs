// SPDX-License-Identifier: MIT
//
// The program asked for the zones of one place.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'

const program = process.env.DRIPSTONE ?? fileURLToPath(new URL('../../../build/debug/dripstone', import.meta.url))

// What `dripstone zones --json` says of a plan; `spots` are lists of x, y, z.
export function zonesOf({ kind, plan }, spots = [], pack = 'gb-2022') {
    const folder = mkdtempSync(join(tmpdir(), 'zones-'))
    try {
        const path = join(folder, 'job.json')
        const place = { id: 'room', kind, setting: 'indoors', seen: 'none', plan }
        writeFileSync(path, JSON.stringify({ dripstone: 1, title: 'room', rules: [pack], places: [place], points: [] }))
        const args = ['zones', path, '--place', 'room', '--json', ...spots.flatMap((spot) => ['--at', spot.join(',')])]
        const result = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 26, env: { PATH: process.env.PATH, LANG: 'C.UTF-8' } })
        if (result.error) throw result.error
        if (!result.stdout.startsWith('{')) throw new Error(`status ${result.status} ${result.signal ?? ''}: ${result.stderr || result.stdout}`)
        return JSON.parse(result.stdout)
    } finally {
        rmSync(folder, { recursive: true })
    }
}

// The parts of a zone that are there at a height.
const partsAt = ({ zones }, name, z) =>
    zones.filter(({ zone }) => zone === name).flatMap(({ parts }) => parts).filter((part) => part.from_m <= z && z <= part.to_m)

export const areaAt = (answer, name, z) => partsAt(answer, name, z).reduce((sum, part) => sum + part.area_m2, 0)
