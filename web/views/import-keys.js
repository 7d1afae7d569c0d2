// SPDX-License-Identifier: MIT
//
// What a column can fill: keys of docs/import.md, which the core knows, and what the page calls them.

const INFLUENCES = ['AA', 'AB', 'AD', 'AE', 'AF', 'AG', 'AH', 'AK', 'AL', 'AM', 'AN', 'AP', 'AQ', 'AR', 'AS', 'BA', 'BB', 'BC', 'BD', 'BE', 'CA', 'CB']

// [group, { key: label }]
export const IMPORT_KEYS = [
    ['The point', { id: 'Its id', place: 'Its place', name: 'Name', kind: 'What it is', count: 'How many alike', product_standard: 'Product standard', measures: 'What protects it besides' }],
    ['Marked', { 'marked.ip': 'IP code', 'marked.ik': 'IK code', 'marked.when': 'Counts only while' }],
    ['Where it is', { zone_stated: 'Zone, as stated', height_m: 'Height above floor, m', zone1_distance_m: 'Level distance to zone 1, m', zone0_distance_m: 'Level distance to zone 0, m',
        at_m: 'Position x, y, z in m', 'at_m.x': 'Position x, m', 'at_m.y': 'Position y, m', 'at_m.z': 'Position above floor, m', size_m: 'Size x, y, z in m', tolerance_m: 'Position known to, m', about: 'Position is rough' }],
    ['Seen at this very spot', { seen: 'Seen', absent: 'Looked for and not there' }],
    ['What feeds it', { 'supply.volts': 'Voltage, V', 'supply.current': 'Current: ac or dc', 'supply.selv': 'SELV', 'supply.source_place': 'Its source stands', 'supply.rcd_ma': 'Residual current device, mA' }],
    ['What the maker states', { 'maker.ambient_c': 'Rated surroundings, °C', 'maker.surface_d': 'Limited surface temperature (D)', 'maker.zones': 'For zones', 'maker.materials': 'Made of',
        'maker.suitable_for': 'Stated to stand', 'maker.mounting': 'Positions allowed' }],
    ['Found at inspection', { 'found.words': 'Found', 'found.evidence': 'The code was read from', 'found.date': 'When', 'found.by': 'Who looked', 'found.photo': 'Photograph' }],
    ['Asked for by a person', { 'asked.ip': 'IP code asked for', 'asked.ik': 'IK code asked for', 'asked.impact_j': 'Impact asked for, J', 'asked.material': 'Material asked for',
        'asked.suitable_for': 'To be stated by the maker', 'asked.by': 'By whom' }],
    ['Its place', { 'place.name': 'Name of the place', 'place.kind': 'What the place is', 'place.setting': 'Setting of the place', 'place.seen': 'Seen at the place', 'place.absent': 'Not there at the place',
        'place.asked.ip': 'IP code asked for there', 'place.asked.ik': 'IK code asked for there', 'place.asked.impact_j': 'Impact asked for there, J',
        'place.asked.material': 'Material asked for there', 'place.asked.suitable_for': 'To be stated by makers there', 'place.asked.by': 'Asked for there by whom' }],
    ['External influences', Object.fromEntries(INFLUENCES.map((letters) => [`influences.${letters}`, `Influence ${letters}`]))]
].map(([group, keys]) => ({ group, keys: Object.entries(keys).map(([key, label]) => ({ key, label })) }))
