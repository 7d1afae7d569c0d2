// SPDX-License-Identifier: MIT
//
// What can be said of a point, as forms; keys of docs/job.md. Sections in the order in which people need them; `missing`
// are the beginnings of the facts (docs/findings.md, "missing") that a section answers.

import { vocabulary } from '../core/rules.js'
import { choicesOf } from '../parts/form.js'

const SUPPLY = [
    { key: 'volts', label: 'Voltage', unit: 'V', kind: 'number', least: 0 },
    { key: 'current', label: 'Current', kind: 'choice', choices: choicesOf(['ac', 'dc']) },
    { key: 'selv', label: 'Separated extra-low voltage (SELV)', kind: 'yes' },
    { key: 'source_place', label: 'Its source stands', kind: 'choice', choices: [{ word: 'outside', label: 'outside the zones' }, { word: 'inside', label: 'inside the zones' }] },
    { key: 'rcd_ma', label: 'Residual current device', unit: 'mA', kind: 'number', least: 0 }
]

// What is most often there, in one tap.
const FEEDS = [
    { label: 'Mains, 230 V', value: { volts: 230, current: 'ac' } },
    { label: 'Mains, 230 V, RCD 30 mA', value: { volts: 230, current: 'ac', rcd_ma: 30 } },
    { label: 'Mains, 400 V', value: { volts: 400, current: 'ac' } },
    { label: 'SELV, 12 V, source outside', value: { volts: 12, current: 'ac', selv: true, source_place: 'outside' } }
]

const MAKER = [
    { key: 'ambient_c', label: 'Rated surroundings', unit: '°C', kind: 'range' },
    { key: 'surface_d', label: 'Limited surface temperature (D)', kind: 'yes' }
]

const ZONES = ['0', '1', '2', '3'].map((word) => ({ word, label: `zone ${word}` }))

const ASKED = [
    { key: 'ip', label: 'IP code', kind: 'text' },
    { key: 'ik', label: 'IK code', kind: 'text' },
    { key: 'impact_j', label: 'Impact', unit: 'J', kind: 'number', least: 0 },
    { key: 'material', label: 'Material', kind: 'text' },
    { key: 'by', label: 'By whom', kind: 'text' }
]

const FOUND = [
    { key: 'date', label: 'When', kind: 'text', hint: 'year-month-day' },
    { key: 'by', label: 'Who looked', kind: 'text' },
    { key: 'photo', label: 'Photograph', kind: 'text' }
]

export const SECTIONS = [
    { name: 'where', label: 'Where it is', missing: ['zone', 'height', 'distance'], fields: [
        { key: 'height_m', label: 'Height above floor', unit: 'm', kind: 'number' },
        { key: 'zone1_distance_m', label: 'Level distance to zone 1', unit: 'm', kind: 'number', least: 0 },
        { key: 'zone0_distance_m', label: 'Level distance to zone 0', unit: 'm', kind: 'number', least: 0 },
        { key: 'tolerance_m', label: 'Position known to', unit: 'm', kind: 'number', least: 0 },
        { key: 'about', label: 'Position is rough', kind: 'yes' }] },
    { name: 'supply', label: 'What feeds it', missing: ['supply', 'volts', 'rcd_ma'], inside: 'supply', fields: SUPPLY, common: FEEDS },
    { name: 'maker', label: 'What the maker states besides', missing: ['maker'], inside: 'maker', fields: MAKER, lists: [
        { key: 'zones', label: 'For zones', words: ZONES },
        { key: 'materials', label: 'Made of', words: vocabulary.material },
        { key: 'suitable_for', label: 'Stated to stand', words: vocabulary.quality },
        { key: 'mounting', label: 'Positions allowed', words: vocabulary.condition }] },
    { name: 'measures', label: 'What protects it besides', missing: ['measure'], lists: [{ key: 'measures', label: 'Measures', words: vocabulary.measure }] },
    { name: 'found', label: 'Found at inspection', missing: ['found'], inside: 'found', fields: FOUND, lists: [
        { key: 'words', label: 'Found', words: vocabulary.found }, { key: 'evidence', label: 'The code was read from', words: vocabulary.evidence }] },
    { name: 'asked', label: 'Asked for by a person', missing: ['asked'], inside: 'asked', fields: ASKED, lists: [{ key: 'suitable_for', label: 'To be stated by the maker', words: vocabulary.quality }] },
    { name: 'standard', label: 'Product standard', missing: ['product_standard'], fields: [{ key: 'product_standard', label: 'Made to', kind: 'text', hint: 'as in EN 61558-2-5' }] }
]
