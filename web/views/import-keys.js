// SPDX-License-Identifier: MIT
//
// What a column can fill (docs/import.md); the core refuses any other.

const INFLUENCES = ['AA', 'AB', 'AD', 'AE', 'AF', 'AG', 'AH', 'AK', 'AL', 'AM', 'AN', 'AP', 'AQ', 'AR', 'AS', 'BA', 'BB', 'BC', 'BD', 'BE', 'CA', 'CB']

export const IMPORT_KEYS = [
    'id', 'place', 'name', 'kind', 'count', 'marked.ip', 'marked.ik', 'marked.when', 'zone_stated', 'height_m', 'zone1_distance_m', 'zone0_distance_m',
    'at_m', 'at_m.x', 'at_m.y', 'at_m.z', 'size_m', 'tolerance_m', 'about', 'seen', 'absent', 'measures', 'product_standard',
    'supply.volts', 'supply.current', 'supply.selv', 'supply.source_place', 'supply.rcd_ma',
    'maker.ambient_c', 'maker.surface_d', 'maker.zones', 'maker.materials', 'maker.suitable_for', 'maker.mounting',
    'found.words', 'found.evidence', 'found.date', 'found.by', 'found.photo',
    'asked.ip', 'asked.ik', 'asked.impact_j', 'asked.material', 'asked.suitable_for', 'asked.by',
    'place.name', 'place.kind', 'place.setting', 'place.seen', 'place.absent', 'place.asked.ip', 'place.asked.ik', 'place.asked.impact_j',
    'place.asked.material', 'place.asked.suitable_for', 'place.asked.by',
    ...INFLUENCES.map((letters) => `influences.${letters}`)
]
