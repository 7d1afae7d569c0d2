// SPDX-License-Identifier: MIT
//
// The questions of a survey and whether they are answered, for showing only: the core decides what an open question means.

import { vocabulary } from '../core/rules.js'

export const groups = [
    { word: 'water', label: 'Water', icon: 'drop', none: 'No water here', influence: 'AD' },
    { word: 'dust', label: 'Dust and objects', icon: 'grains', none: 'No dust, no small parts here', influence: 'AE' },
    { word: 'blows', label: 'Blows', icon: 'blow', none: 'Nothing hits it here', influence: 'AG' },
    { word: 'people', label: 'People', icon: 'person', influence: 'BA' },
    { word: 'rest', label: 'What else', icon: 'other' }
]

const groupOf = new Map(vocabulary.seen.map(({ word, group }) => [word, group]))
const wordsOf = (list) => (Array.isArray(list) ? list.map((each) => each?.word ?? each) : [])

export function answered(place, group) {
    if (place.seen === 'none') return true
    const { influence } = groups.find(({ word }) => word === group)
    const absent = wordsOf(place.absent)
    return wordsOf(place.seen).some((word) => groupOf.get(word) === group)
        || absent.includes(group)
        || (group === 'people' && absent.some((word) => groupOf.get(word) === 'people'))
        || place.influences?.[influence] !== undefined
}

// What stands open when the survey is opened: the first question without an answer.
export function openGroups(place) {
    const first = groups.find(({ word }) => word !== 'rest' && !answered(place, word))
    return new Set(first ? [first.word] : [])
}
