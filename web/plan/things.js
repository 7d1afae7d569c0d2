// SPDX-License-Identifier: MIT
//
// What can stand in a plan: its name, its usual size, and the figures that belong to it (keys of docs/plan.md). Heights are
// above the finished floor, of a vessel's bottom: its inside. Sizes are
// common practice (widespread in trade catalogues); whatever is put in with one is to be measured.

const height = (key, label, usual, more = {}) => ({ key, label, unit: 'm', kind: 'number', least: -50, most: 100, usual, ...more })
const needed = { needed: true }

const RIM = height('rim_m', 'Rim height', 0.55, needed)
const BOTTOM = height('bottom_m', 'Bottom height', 0.12, needed)
const TOP = height('top_m', 'Top height', 1, { needed: true, hint: 'highest standing surface' })
const DOOR_HEIGHT = height('height_m', 'Height', 2)

// form: how it is entered; size [width, depth] or length; onWall: lies along a wall.
export const THINGS = {
    bath: { label: 'Bath', form: 'rect', size: [1.7, 0.7], fields: [RIM, BOTTOM] },
    'shower-basin': { label: 'Shower basin', form: 'rect', size: [0.9, 0.9], fields: [{ ...RIM, usual: 0.1 }, { ...BOTTOM, usual: 0.04 }] },
    'shower-outlet': { label: 'Shower outlet', form: 'spot', fields: [
        height('height_m', 'Outlet height', 2.1, needed),
        { key: 'basin', label: 'Over a basin', kind: 'yes', hint: 'not said: yes where it stands within one' }] },
    partition: { label: 'Screen or partition', form: 'line', length: 0.9, thickness: 0.01, fields: [
        height('height_m', 'Height', 2, needed),
        { key: 'thickness_m', label: 'Thickness', unit: 'm', kind: 'number', least: 0, most: 5 },
        { key: 'gap_m', label: 'Open at the floor', unit: 'm', kind: 'number', least: 0, most: 10 },
        { key: 'fixed', label: 'Fixed', kind: 'yes', hint: 'no: it swings or slides' }] },
    washbasin: { label: 'Washbasin', form: 'rect', size: [0.6, 0.45], fields: [] },
    door: { label: 'Door', form: 'line', length: 0.8, onWall: true, fields: [DOOR_HEIGHT] },
    opening: { label: 'Opening', form: 'line', length: 0.9, onWall: true, fields: [DOOR_HEIGHT] },
    window: { label: 'Window', form: 'line', length: 0.9, onWall: true, fields: [
        height('sill_m', 'Sill height', 1), height('head_m', 'Head height', 2),
        { key: 'recess_m', label: 'Recess', unit: 'm', kind: 'number', least: 0, most: 5, hint: 'deeper than 0 it is room too' }] },
    pool: { label: 'Pool', form: 'rect', size: [8, 4], fields: [height('rim_m', 'Rim height', 0), height('bottom_m', 'Bottom height', -1.5, { hint: 'below the floor: negative' })] },
    fountain: { label: 'Fountain', form: 'round', radius: 1, fields: [
        height('rim_m', 'Rim height', 0.4), height('bottom_m', 'Bottom height', 0),
        { key: 'entered', label: 'People can enter it', kind: 'yes' }] },
    board: { label: 'Diving board', form: 'rect', size: [2.6, 0.5], fields: [TOP] },
    chute: { label: 'Chute', form: 'rect', size: [2.5, 0.6], fields: [{ ...TOP, usual: 2 }] },
    'starting-block': { label: 'Starting block', form: 'rect', size: [0.5, 0.5], fields: [{ ...TOP, usual: 0.6 }] },
    platform: { label: 'Platform', form: 'rect', size: [2, 1.5], fields: [{ ...TOP, usual: 3 }] },
    'sauna-heater': { label: 'Sauna heater', form: 'rect', size: [0.5, 0.4], fields: [{ ...TOP, label: 'Top height', usual: 0.8, hint: undefined }] },
    'raised-floor': { label: 'Raised floor', form: 'rect', size: [1.2, 0.9], fields: [height('height_m', 'Height', 0.15, needed)] },
    wall: { label: 'Short wall', form: 'rect', size: [0.6, 0.1], fields: [height('height_m', 'Height', 1.2, { hint: 'not said: up to the ceiling' })] },
    column: { label: 'Column', form: 'round', radius: 0.15, fields: [] },
    niche: { label: 'Niche', form: 'rect', size: [0.6, 0.15], fields: [height('bottom_m', 'Lower end', 1, needed), height('top_m', 'Upper end', 1.4, needed)] },
    'under-bath': { label: 'Space under a bath', form: 'none', fields: [
        { key: 'of', label: 'Under (its id)', kind: 'text', hint: 'not said: under all' },
        { key: 'tool', label: 'Only a tool opens it', kind: 'yes' }] },
    slope: { label: 'Sloping ceiling', form: 'slope', fields: [] }
}

const PALETTES = {
    pool: ['pool', 'board', 'starting-block', 'chute', 'platform', 'fountain', 'partition', 'door', 'wall', 'column', 'shower-outlet', 'window', 'opening'],
    sauna: ['sauna-heater', 'raised-floor', 'door', 'window', 'partition', 'wall', 'column', 'slope', 'shower-outlet'],
    wet: ['bath', 'shower-basin', 'shower-outlet', 'partition', 'washbasin', 'door', 'window', 'opening', 'wall', 'column', 'niche', 'raised-floor', 'slope', 'under-bath']
}

const POINTS = {
    pool: ['luminaire', 'underwater-luminaire', 'socket-outlet', 'switch', 'pump', 'loudspeaker'],
    sauna: ['sauna-heater', 'luminaire', 'thermostat', 'switch'],
    wet: ['luminaire', 'switch', 'socket-outlet', 'shaver-unit', 'fan', 'towel-rail', 'electric-shower']
}

const sortOf = (placeKind) => (/pool|fountain/.test(placeKind) ? 'pool' : /sauna/.test(placeKind) ? 'sauna' : 'wet')

// Kinds of things to choose from: what is usual in this sort of place, and all else.
export function paletteFor(placeKind) {
    const usual = PALETTES[sortOf(placeKind)]
    return { usual, more: Object.keys(THINGS).filter((kind) => !usual.includes(kind)) }
}

// Kinds of points that are usual there.
export const pointsFor = (placeKind) => POINTS[sortOf(placeKind)]

export const thingOf = (kind) => THINGS[kind] ?? { label: kind, form: 'unknown', fields: [] }

export const hasUsualSize = (kind) => ['rect', 'line', 'round'].includes(thingOf(kind).form)

// Figures that decide zones and are not there yet: the fields themselves.
export const unmeasuredHeights = (feature) => thingOf(feature.kind).fields.filter(({ key, needed: must }) => must && feature[key] === undefined)

const round = (value) => Math.round(value * 1e6) / 1e6

// A new thing of a kind about a place, with its usual size; heights are left to be measured.
export function newThing(kind, [x, y]) {
    const { form, size, length, radius, thickness } = THINGS[kind]
    const [w, d] = size ?? []
    const left = (from, wide) => round(Math.round((from - wide / 2) * 20) / 20)
    if (form === 'rect') {
        const [l, b] = [left(x, w), left(y, d)]
        return { kind, outline_m: [[l, b], [round(l + w), b], [round(l + w), round(b + d)], [l, round(b + d)]] }
    }
    if (form === 'line') return { kind, from_m: [left(x, length), left(y, 0)], to_m: [round(left(x, length) + length), left(y, 0)], ...(thickness && { thickness_m: thickness }) }
    if (form === 'round') return { kind, centre_m: [left(x, 0), left(y, 0)], radius_m: radius }
    if (form === 'spot') return { kind, at_m: [left(x, 0), left(y, 0)] }
    if (form === 'slope') return { kind, through_m: [[left(x, 2), left(y, 2), 1], [left(x, -2), left(y, 2), 1], [left(x, 2), left(y, -2), 2.4]] }
    return { kind }
}

// --- rooms ----------------------------------------------------------------------------------------------------------

export const ROOM = { width: 3, depth: 2.4, height: 2.4, cutWidth: 1.2, cutDepth: 1 }

// An L: the upper right corner is cut away.
export const cornerRoom = (width, depth, cutWidth, cutDepth) =>
    [[0, 0], [width, 0], [width, depth - cutDepth], [width - cutWidth, depth - cutDepth], [width - cutWidth, depth], [0, depth]].map((spot) => spot.map(round))

export const isAtCeiling = (kind) => /lum|light|fan|ceiling|pendant|batten|high-bay/.test(kind) && !/wall|mirror|underwater|ground/.test(kind)

const CEILING_MOST = 2.3

// Where a point of a kind usually sits above the floor, until it is measured. At a ceiling not far over the 2.25 m at which
// zones often end: while it is rough, neither above nor below is taken for shown.
export const usualHeight = (kind, ceiling) =>
    isAtCeiling(kind) ? Math.min(round((ceiling ?? 2.4) - 0.05), CEILING_MOST) : /socket/.test(kind) ? 0.4 : 1.1

// A point that was put in and not yet moved to where it stands may be anywhere: so far off that no zone is taken for shown.
export const GUESS_M = 10

export const isGuess = (point) => point.tolerance_m === GUESS_M

// Once somebody moved it.
export function settled(point) {
    if (!isGuess(point)) return point
    const { tolerance_m: _, ...rest } = point
    return rest
}
