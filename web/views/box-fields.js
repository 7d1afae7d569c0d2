// SPDX-License-Identifier: MIT
//
// What can be said of a box, as forms: keys, units and choices of docs/box.md.

import sizes from '../../rules/entries.json'
import { choicesOf } from '../parts/form.js'

const { threads, cables } = JSON.parse(sizes)
const threadSizes = choicesOf(threads.flatMap(({ sizes: list }) => list.map(({ size }) => size)))
const cableTypes = cables.map(({ type, label }) => ({ word: type, label }))

export const SIDES = ['top', 'bottom', 'left', 'right', 'front', 'back']
const sideChoices = choicesOf(SIDES)

export const HOLDS = [
    { word: 'gland', label: 'gland' },
    { word: 'blank', label: 'blank' },
    { word: 'insert', label: 'insert with several holes' },
    { word: 'conduit', label: 'conduit' },
    { word: 'brush', label: 'brush strip' },
    { word: 'drain', label: 'drain' },
    { word: 'breather', label: 'breather' },
    { word: 'tape', label: 'tape' },
    { word: 'hand-sealant', label: 'sealant by hand' },
    { word: 'forced-seal', label: 'seal forced in' },
    { word: 'fixing-hole', label: 'fixing hole' },
    { word: 'nothing', label: 'nothing: it is open' }
]

const CABLE = [
    { key: 'type', label: 'Cable', kind: 'choice', choices: cableTypes },
    { key: 'size', label: 'Cores and size', kind: 'text', hint: 'as 3x2.5' },
    { key: 'od_mm', label: 'Measured outside', unit: 'mm', kind: 'range', least: 0, ends: ['least', 'most'] },
    { key: 'count', label: 'Cables in it', kind: 'number', least: 0 }
]

export const ENTRY = [
    { key: 'face', label: 'Face', kind: 'choice', choices: sideChoices },
    { key: 'holds', label: 'What sits in it', kind: 'choice', choices: HOLDS },
    { key: 'size', label: 'Thread', kind: 'choice', choices: threadSizes },
    { key: 'range_mm', label: 'Made for cables', unit: 'mm', kind: 'range', least: 0 },
    { key: 'ip', label: 'Code printed on it', kind: 'text' },
    { key: 'cable', label: 'The cable', kind: 'sub', fields: CABLE }
]

export const ENTRY_MORE = [
    { key: 'id', label: 'Its name', kind: 'text' },
    { key: 'hole_size', label: 'Hole made for', kind: 'choice', choices: threadSizes },
    { key: 'hole_mm', label: 'Hole', unit: 'mm', kind: 'number', least: 0 },
    { key: 'threaded', label: 'Hole threaded', kind: 'yes' },
    { key: 'wall_seal', label: 'Sealed to the wall', kind: 'yes' },
    { key: 'led_in', label: 'Led in from another space', kind: 'choice', choices: choicesOf(['open', 'sealed', 'drained']) },
    { key: 'as_made', label: "The maker's own", kind: 'yes' },
    { key: 'by_hand', label: 'Comes out by hand', kind: 'yes' },
    { key: 'outside_seal', label: 'Outside the seal of the lid', kind: 'yes' },
    { key: 'live_part_mm', label: 'Live part behind', unit: 'mm', kind: 'number', least: 0 },
    { key: 'insulated', label: 'That part insulated', kind: 'yes' }
]

export const FACE = [
    { key: 'reachable', label: 'Can be reached', kind: 'yes' },
    { key: 'height_m', label: 'Height', unit: 'm', kind: 'number' },
    { key: 'covered', label: 'Covered', kind: 'yes' },
    { key: 'tool_to_open', label: 'Opens by tool only', kind: 'yes' },
    { key: 'all_openings_measured', label: 'All openings are listed and measured', kind: 'yes' }
]

const SHAPES = choicesOf(['round', 'slot', 'mesh', 'rectangle', 'triangle', 'gap', 'cable-gap', 'knock-out'])

export const OPENING = [
    { key: 'shape', label: 'Shape', kind: 'choice', choices: SHAPES },
    { key: 'size_mm', label: 'Width', unit: 'mm', kind: 'number', least: 0 },
    { key: 'length_mm', label: 'Length', unit: 'mm', kind: 'number', least: 0 },
    { key: 'wall_mm', label: 'Wall', unit: 'mm', kind: 'number', least: 0 },
    { key: 'live_part_mm', label: 'Live part behind', unit: 'mm', kind: 'number', least: 0 },
    { key: 'insulated', label: 'That part insulated', kind: 'yes' },
    { key: 'as_made', label: "The maker's own", kind: 'yes' }
]

const SURFACES = choicesOf(['painted-steel', 'painted-aluminium', 'plastic', 'grp', 'stainless', 'galvanised', 'galvanised-weathered', 'aluminium', 'aluminium-anodised', 'aluminium-paint'])
const COLOURS = choicesOf(['white-clean', 'white', 'cream', 'yellow', 'light-grey', 'mid-grey', 'dark-grey', 'light-green', 'dark-green', 'blue', 'red', 'brown', 'black'])
const MOUNTED = choicesOf(['wall', 'free', 'row-end', 'row-end-wall', 'row-middle', 'row-middle-wall', 'recessed'])

export const BODY = [
    { key: 'surface', label: 'Surface', kind: 'choice', choices: SURFACES },
    { key: 'colour', label: 'Colour', kind: 'choice', choices: COLOURS },
    { key: 'mounted', label: 'Stands or hangs', kind: 'choice', choices: MOUNTED },
    { key: 'wall_mm', label: 'Wall', unit: 'mm', kind: 'number', least: 0 }
]

export const HEAT = [
    { key: 'watts', label: 'Losses inside', unit: 'W', kind: 'number', least: 0 },
    { key: 'air_c', label: 'Air around it', unit: '°C', kind: 'number' },
    { key: 'limit_c', label: 'Highest inside', unit: '°C', kind: 'number' },
    { key: 'seal', label: 'Closed', kind: 'choice', choices: choicesOf(['sealed', 'breathing', 'vented']) },
    { key: 'fan_m3_h', label: 'Fan', unit: 'm³/h', kind: 'number', least: 0 },
    { key: 'filter', label: 'With a filter', kind: 'yes' },
    { key: 'wind_m_s', label: 'Wind', unit: 'm/s', kind: 'number', least: 0 },
    { key: 'sun', label: 'Sun on it', kind: 'sub', fields: [
        { key: 'shade', label: 'Kept off', kind: 'yes' },
        { key: 'flat_w_m2', label: 'On the flat', unit: 'W/m²', kind: 'number', least: 0 },
        { key: 'wall_w_m2', label: 'On a wall', unit: 'W/m²', kind: 'number', least: 0 }] }
]

const DAY = [
    { key: 'low_c', label: 'Coldest, at 5 h', unit: '°C', kind: 'number' },
    { key: 'high_c', label: 'Warmest, at 15 h', unit: '°C', kind: 'number' },
    { key: 'humidity_pct', label: 'Humidity when coldest', unit: '%', kind: 'number', least: 0, most: 100 },
    { key: 'sun_flat_w_m2', label: 'Sun at noon on the flat', unit: 'W/m²', kind: 'number', least: 0 },
    { key: 'sun_wall_w_m2', label: 'Sun at noon on a wall', unit: 'W/m²', kind: 'number', least: 0 },
    { key: 'wind_m_s', label: 'Wind', unit: 'm/s', kind: 'number', least: 0 },
    { key: 'clear', label: 'Clear sky, 0 to 1', kind: 'number', least: 0, most: 1, hint: 'not said: the worse of clear and overcast' }
]

export const WATER = [
    { key: 'keep_dry', label: 'Nothing inside may get wet', kind: 'yes' },
    { key: 'contents_kg', label: 'What stands inside', unit: 'kg', kind: 'number', least: 0 },
    { key: 'day', label: 'A day to design for', kind: 'sub', fields: DAY },
    { key: 'humidity_pct', label: 'Humidity when closed', unit: '%', kind: 'number', least: 0, most: 100 },
    { key: 'cooled_to_c', label: 'A hose or rain cools it to', unit: '°C', kind: 'number' },
    { key: 'lowest_m', label: 'Its lowest point', unit: 'm', kind: 'number' },
    { key: 'vent_l_min', label: 'Vent', unit: 'l/min', kind: 'number', least: 0 },
    { key: 'flood', label: 'High water', kind: 'sub', fields: [
        { key: 'level_m', label: 'Level', unit: 'm', kind: 'number' }, { key: 'hours', label: 'Stands', unit: 'h', kind: 'number', least: 0 }] },
    { key: 'heater', label: 'Heater against sweating', kind: 'sub', fields: [
        { key: 'watts', label: 'Heater', unit: 'W', kind: 'number', least: 0 },
        { key: 'on', label: 'Switched by', kind: 'choice', choices: choicesOf(['hygrostat', 'thermostat', 'always']) },
        { key: 'at', label: 'At % or °C', kind: 'number' }] }
]
