// SPDX-License-Identifier: MIT
//
// The answer for a point: verdict, deciding fact, remedy, the rung picture, the codes; then, folded, every reason with its
// source, what is open, what was worked out.

import { labelOf } from '../core/rules.js'
import { html } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Rungs } from '../parts/rungs.js'
import { sourceText, Steps } from '../parts/steps.js'
import { Verdict } from '../parts/verdict.js'
import { addressOf } from '../state/route.js'
import { rowOf } from '../state/opened.js'

function Reason({ reason }) {
    return html`<li class=${`point-reason ${reason.decides ? 'point-decides' : ''}`}>
        <p class="row"><${Verdict} verdict=${reason.outcome} />${reason.needs && html`<strong class="code">${reason.needs}</strong>`}${reason.bars && html`<strong>Not here: ${reason.bars}</strong>`}${reason.asks && html`<strong>${reason.asks}</strong>`}
            ${reason.decides && html`<span class="small quiet">decides</span>`}</p>
        <p>${reason.because}</p>
        ${reason.missing && html`<p><strong>Missing: ${reason.missing}</strong></p>`}
        <p class="small quiet">${[reason.clause !== '-' && reason.clause, reason.edition, reason.grade, sourceText(reason.source)].filter(Boolean).join('; ')}</p>
    </li>`
}

function Fold({ label, count, children }) {
    return count > 0 && html`<details class="point-fold"><summary><${Icon} name="down" />${label}<span class="quiet">${count}</span></summary>${children}</details>`
}

const Sentences = ({ list }) => html`<ul class="point-sentences">${list.map((text) => html`<li key=${text}>${text}</li>`)}</ul>`
const Reasons = ({ list }) => html`<ul class="reasons">${list.map((reason) => html`<${Reason} key=${reason.rule} reason=${reason} />`)}</ul>`

const zoneName = (zone) => (/^\d/.test(zone) ? `zone ${zone}` : zone === 'outside' ? 'outside the zones' : zone === 'unknown' ? 'zone not known' : zone)

// The way by which its zone was found; its length stands in the core's words, else it is added, cut to the millimetre.
function wayOf(position) {
    if (!position?.way) return ''
    const { way, from, distance_m: far, limit_m: limit } = position
    if (/\d m\b/.test(way) || !Number.isFinite(far)) return way
    return `${way}${from ? `, from ${from}` : ''}: ${Math.floor(far * 1000) / 1000} m${limit ? `, limit ${limit} m` : ''}`
}

function Where({ finding, job, hasPlan }) {
    const { position, zone, place } = finding
    if (zone === 'not-applicable' && !position) return null
    const way = wayOf(position)
    const could = position?.could_be ?? []
    return html`<div><dt>stands</dt><dd>${zoneName(zone)}${could.length > 1 && `, could be ${could.map(zoneName).join(' or ')}`}
        ${way && html`<br /><span class="small">${way}</span>`}
        ${position?.measure && html`<br /><strong>${position.measure}</strong>`}
        ${hasPlan && html` <a href=${addressOf(job, 'place', place, 'plan')}>Plan</a>`}</dd></div>`
}

function Facts({ finding, job, id, hasPlan }) {
    const { needed, advised, installed, heat } = finding
    const need = rowOf(finding).needed ?? (needed.access ? `access ${needed.access}` : 'no code')
    const besides = [needed.rated_c !== undefined && `rated for ${needed.rated_c} °C`, needed.cold_c !== undefined && `rated down to ${needed.cold_c} °C`, needed.surface_d && 'limited surface temperature'].filter(Boolean)
    const parts = installed?.parts ?? []
    const more = [advised.ip !== needed.ip && advised.ip, advised.ik !== needed.ik && advised.ik].filter(Boolean).join(' ')
    return html`<dl class="point-facts">
        <div><dt>needed</dt><dd><strong class="code">${need}</strong>${besides.length > 0 && `; ${besides.join('; ')}`}${more && html`<span class="quiet">, advised <span class="code">${more}</span></span>`}</dd></div>
        <div><dt>marked</dt><dd class="code">${finding.marked ?? 'nothing'}</dd></div>
        <div><dt>installed</dt><dd>${installed ? html`<span class="code">${installed.code ?? 'no code is shown'}</span>` : html`<span class="quiet">not told, judged on the mark</span>`} <a href=${addressOf(job, 'point', id, 'box')}>${parts.length ? `Box, ${parts.length} parts` : 'Describe the box'}</a></dd></div>
        ${finding.deciding_state && html`<div><dt>worst state</dt><dd>${finding.deciding_state.map(labelOf).join(', ')}</dd></div>`}
        ${finding.lost.length > 0 && html`<div><dt>not shown</dt><dd>${finding.lost.join(', ')}</dd></div>`}
        <${Where} ...${{ finding, job, hasPlan }} />
        ${heat && heat.high_c !== null && html`<div><dt>inside</dt><dd>${heat.low_c} to ${heat.high_c} °C${heat.limit_c !== null && `, limit ${heat.limit_c} °C`}</dd></div>`}
    </dl>`
}

function Parts({ parts }) {
    return html`<ul class="reasons">${parts.map((part, index) => html`<li key=${index} class="point-reason">
        <p class="row"><${Verdict} verdict=${part.outcome} /><strong>${part.part}</strong></p>
        <p>${part.why ?? 'Takes nothing away.'}</p>${part.mend && html`<p><strong>${part.mend}</strong></p>`}</li>`)}</ul>`
}

export function PointAnswer({ finding, job, id, hasPlan, problem }) {
    if (!finding) return html`<section class="point-answer sheet stack" aria-label="Answer"><h2>The job cannot be judged</h2>${problem && html`<p>${problem.problem}</p><p>${problem.remedy}</p>`}</section>`
    const { needed } = rowOf(finding)
    const steps = finding.calculation ?? []
    const parts = finding.installed?.parts ?? []
    return html`<section class="point-answer sheet" aria-label="Answer">
        <div aria-live="polite" class="point-said"><${Verdict} verdict=${finding.verdict} large />
            <p>${finding.deciding}</p>
            ${finding.remedy && html`<p><strong>${finding.remedy}</strong></p>`}</div>
        <${Rungs} needed=${needed} shown=${finding.shown} form="figures" />
        <${Facts} ...${{ finding, job, id, hasPlan }} />
        <div class="point-folds">
            <${Fold} label="Reasons" count=${finding.reasons.length}><${Reasons} list=${finding.reasons} /><//>
            <${Fold} label="Open, for want of a fact" count=${finding.open.length}><${Reasons} list=${finding.open} /><//>
            <${Fold} label="Entries and openings" count=${parts.length}><${Parts} parts=${parts} /><//>
            <${Fold} label="Calculation" count=${steps.length}><${Steps} steps=${steps} /><//>
            <${Fold} label="Remarks" count=${finding.remarks.length}><${Sentences} list=${finding.remarks} /><//>
            <${Fold} label="Advice that it is not shown to meet" count=${finding.cautions.length}><${Sentences} list=${finding.cautions} /><//>
        </div>
        ${needed && html`<a class="button point-left" href=${`#/instead?${new URLSearchParams({ need: needed, mark: '' })}`}>Will this do instead?</a>`}
    </section>`
}
