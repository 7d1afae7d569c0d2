// SPDX-License-Identifier: MIT
//
// Beside the drawing, in words: the points with zone, way and verdict, what is left to measure, and everything that stands
// there with its coordinates.

import { labelOf } from '../core/rules.js'
import { html } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Verdict } from '../parts/verdict.js'
import { addressOf } from '../state/route.js'
import { heightWords, metres, placeWords, sentence, sizeWords, zoneOf } from './say.js'
import { isGuess, thingOf, unmeasuredHeights } from './things.js'

const wayWords = ({ position }) => position?.way ?? (position?.distance_m ? `${metres(position.distance_m)} m` : '')

// A point without a name goes by its id and what it is.
export const nameOf = ({ sort, owner, label }) => (sort === 'point' && !owner.name && owner.kind ? `${label} ${labelOf(owner.kind)}` : label)

function PointRow({ item, finding, choose, chosen, job }) {
    return html`<li class=${`plan-row ${chosen ? 'plan-row-chosen' : ''}`}>
        <button class="plan-row-main plain" aria-pressed=${chosen} onClick=${() => choose(item.key)}>
            <span class="plan-row-top">${finding && html`<${Verdict} verdict=${finding.verdict} />`}<strong class="plan-row-name">${nameOf(item)}</strong><span class="plan-row-zone">${finding ? zoneOf(finding) : ''}</span></span>
            <span class="small quiet">${item.shape ? [finding && wayWords(finding), placeWords(item.shape), heightWords(item.owner)].filter(Boolean).join('; ') : 'not on the plan yet'}</span>
            ${finding && finding.verdict !== 'fits' && html`<span class="small">${sentence(finding.position?.measure ?? finding.remedy ?? finding.deciding)}</span>`}</button>
        <a class="button plain" href=${addressOf(job, 'point', item.owner.id)} aria-label=${`All of ${nameOf(item)}`}><${Icon} name="forward" /></a></li>`
}

export function Answers({ items, findings, choose, chosen, job }) {
    const byId = new Map(findings.map((finding) => [finding.id, finding]))
    const points = items.filter(({ sort }) => sort === 'point')
    if (!points.length) return html`<p class="quiet">No points here yet. Put one in, or add it at the place.</p>`
    return html`<ul class="plan-rows">${points.map((item) => html`<${PointRow} key=${item.key} ...${{ item, choose, job }} finding=${byId.get(item.owner.id)} chosen=${chosen?.key === item.key} />`)}</ul>`
}

// "Rim height" -> "height of the rim"; "Height", "Upper end" stay.
export const heightName = (label) => (/ height$/.test(label) ? `height of the ${label.replace(' height', '').toLowerCase()}` : label.toLowerCase())

// What the tape measure is still to be put to: [{ key, words }].
export function toMeasure(plan, items, findings, isUsual) {
    const ceiling = plan.height_m === undefined ? [{ key: 'room:0', words: 'Room: measure the height of the ceiling' }] : []
    const heights = items.filter(({ sort }) => sort === 'thing').flatMap((item) => unmeasuredHeights(item.owner).map(({ label }) => ({ key: item.key, words: `${item.label}: measure the ${heightName(label)}` })))
    const sizes = items.filter((item) => isUsual(item)).map((item) => ({ key: item.key, words: `${item.label}: check, measured?` }))
    const rough = items.filter(({ sort, owner, shape }) => sort === 'point' && shape && owner.about).map((item) => ({ key: item.key, words: `${nameOf(item)}: ${isGuess(item.owner) ? 'drag it to where it stands, or measure' : 'its place is only rough'}` }))
    const asked = findings.filter(({ position }) => position?.measure).map(({ id, name, position }) => ({ key: `point:${id}`, words: `${name || id}: ${position.measure}` }))
    return [...ceiling, ...heights, ...sizes, ...rough, ...asked]
}

export const ToMeasure = ({ list, choose }) => list.length > 0 && html`<section class="stack-small"><h2>To measure</h2>
    <ul class="plan-rows">${list.map(({ key, words }) => html`<li key=${key + words}><button class="plan-row-main plain" onClick=${() => choose(key, true)}>${words}</button></li>`)}</ul></section>`

function ThingRow({ item, faults, choose, chosen }) {
    return html`<li class=${`plan-row ${chosen ? 'plan-row-chosen' : ''}`}><button class="plan-row-main plain" aria-pressed=${chosen} onClick=${() => choose(item.key)}>
        <span class="plan-row-top"><strong>${item.label}</strong><span class="small quiet">${sizeWords(item.shape)}</span></span>
        <span class="small quiet">${item.shape || thingOf(item.kind).form === 'none' ? placeWords(item.shape) : 'has no place on the plan yet'}</span>
        ${faults?.map(({ problem, remedy }) => html`<span key=${problem} class="small plan-problem"><strong>${sentence(problem)}.</strong> ${remedy}</span>`)}</button></li>`
}

export const Things = ({ items, faults, choose, chosen }) => html`<ul class="plan-rows">${items.filter(({ sort }) => sort !== 'point').map((item) => html`<${ThingRow} key=${item.key} ...${{ item, choose }} faults=${faults.get(item.key)} chosen=${chosen?.key === item.key} />`)}</ul>`
