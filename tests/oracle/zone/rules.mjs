// SPDX-License-Identifier: MIT
//
// The zones of gb-2022 as the zone oracle knows them: what makes zones, how far, how high, which partitions count.
// Figures: BS 7671 Sections 701, 702 and 703 (tests/zones/rooms.json names where they were read).

import { distanceToEdges, isInside } from './plane.mjs'
import { sceneOf, stringLength } from './string.mjs'

// `base` is the zone of what no source reaches.
const rulesOf = {
    'bath-room': { kinds: ['bath', 'shower-basin', 'shower-outlet'], top: 2.25, order: ['0', '1', '2', 'outside'], base: () => 'outside' },
    pool: { kinds: ['pool', 'platform'], top: 2.5, order: ['0', '1', '2', 'outside'], base: () => 'outside' },
    sauna: { kinds: ['sauna-heater'], top: 0, order: ['1', '3', '2'], base: (z) => (z >= 1 ? '3' : '2') }
}

export function scene({ kind, plan }) {
    const rules = rulesOf[kind]
    return { kind, rules, ...sceneOf(plan, rules.kinds, ({ fixed, height_m: height }) => fixed !== false && height >= rules.top) }
}

const inside = ({ bottom_m: low, rim_m: high }) => ({ zone: '0', reach: 0, low, high })

// What a feature reaches, in a place whose zones end at `top`: { zone, reach, low, high }; reach 0 is its inside.
const reachesOf = {
    bath: (vessel, top) => [inside(vessel), { zone: '1', reach: 0, low: 0, high: top }, { zone: '2', reach: 0.6, low: 0, high: top }],
    'shower-basin': (vessel, top) => reachesOf.bath(vessel, top),
    'shower-outlet': (outlet, top) => [{ zone: '0', reach: 1.2, low: 0, high: 0.1 }, { zone: '1', reach: 1.2, low: 0, high: top }],
    pool: (vessel, top) => [inside(vessel), { zone: '1', reach: 2, low: 0, high: top }, { zone: '2', reach: 3.5, low: 0, high: top }],
    platform: (board, top) => [{ zone: '1', reach: 1.5, low: 0, high: board.top_m + 2.5 }, { zone: '2', reach: 3, low: 0, high: top }],
    'sauna-heater': () => [{ zone: '1', reach: 0.5, low: 0, high: Infinity }]
}

export const stricter = (order, a, b) => (order.indexOf(a) <= order.indexOf(b) ? a : b)

// What lies this far beyond a limit or less is on it, and counts to the stricter zone: half the last digit that anybody
// measures (docs/plan.md). Regions and areas end at the limit itself.
const onLimit = 5e-4

// What one source makes of a point: its zone, the length of the string, and how near the point is to where its zone changes.
function judge(scene, source, p, z, beyond) {
    const length = stringLength(scene, source, p)
    const edge = source.polygon && isInside(source.polygon, p) ? -distanceToEdges(source.edges, p) : length
    const reaches = reachesOf[source.feature.kind](source.feature, scene.rules.top)
    const zone = reaches.filter(({ reach, low, high }) => edge <= reach + beyond && z >= low - beyond && z <= high + beyond)
        .reduce((found, reach) => stricter(scene.rules.order, found, reach.zone), scene.rules.base(z))
    const margin = Math.min(...reaches.map(({ reach }) => Math.abs(edge - reach - beyond)))
    const level = Math.min(...reaches.flatMap(({ low, high }) => [Math.abs(z - low + beyond), Math.abs(z - high - beyond)]))
    return { id: source.feature.id, kind: source.feature.kind, zone, length, margin: Math.min(margin, level), reaches }
}

// { zone, margin, each }: `each` by source. The margin is to the nearest change of any source's zone.
export function expected(scene, p, z, beyond = onLimit) {
    const each = scene.sources.map((source) => judge(scene, source, p, z, beyond))
    return {
        zone: each.reduce((found, { zone }) => stricter(scene.rules.order, found, zone), scene.rules.base(z)),
        margin: Math.min(...each.map(({ margin }) => margin)),
        each
    }
}
