// SPDX-License-Identifier: MIT
//
// The answer for a point: verdict, deciding fact, remedy, the rung picture; then, folded, every reason with its source.

import { html } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Rungs } from '../parts/rungs.js'
import { Verdict } from '../parts/verdict.js'
import { addressOf } from '../state/route.js'
import { rowOf } from '../state/session.js'

const SOURCES = { published: 'read in', memory: 'from memory:', 'common-practice': 'common practice', person: 'asked by' }

function Reason({ reason }) {
    return html`<li class=${`point-reason ${reason.decides ? 'point-decides' : ''}`}>
        <p><${Verdict} verdict=${reason.outcome} /> <strong class="code">${reason.needs ?? ''}</strong>${reason.bars && html`<strong>Not allowed: ${reason.bars}</strong>`}${reason.asks && html`<strong>${reason.asks}</strong>`}</p>
        <p>${reason.because}</p>
        ${reason.missing && html`<p><strong>Missing: ${reason.missing}</strong></p>`}
        <p class="small quiet">${[reason.clause !== '-' && reason.clause, reason.edition, reason.grade, `${SOURCES[reason.source.kind] ?? reason.source.kind} ${reason.source.ref}`].filter(Boolean).join('; ')}</p>
    </li>`
}

function Fold({ label, count, open, children }) {
    return count > 0 && html`<details class="point-fold" open=${open}><summary>${label}<span class="quiet">${count}</span></summary>${children}</details>`
}

function Position({ finding, job }) {
    const { position, zone } = finding
    if (zone === 'not-applicable') return null
    return html`<p>${/^\d/.test(zone) ? `Zone ${zone}` : zone === 'outside' ? 'Outside the zones' : 'Zone not known'}${position?.way && `: ${position.way}`}${position?.measure && html`. <strong>${position.measure}</strong>`}
        ${finding.place && html` <a href=${addressOf(job, 'place', finding.place, 'plan')}>Plan</a>`}</p>`
}

function Facts({ finding, job, id }) {
    const parts = finding.installed?.parts ?? []
    return html`<dl class="point-facts">
        <div><dt>needed</dt><dd class="code">${rowOf(finding).needed ?? (finding.needed.access ? `access ${finding.needed.access}` : 'no code')}</dd></div>
        ${finding.advised.ip && html`<div><dt>advised</dt><dd class="code">${finding.advised.ip} ${finding.advised.ik ?? ''}</dd></div>`}
        <div><dt>marked</dt><dd class="code">${finding.marked ?? 'nothing'}</dd></div>
        <div><dt>installed</dt><dd>${finding.installed ? html`<span class="code">${finding.installed.code ?? 'no code is shown'}</span>` : html`<span class="quiet">not told</span>`} <a href=${addressOf(job, 'point', id, 'box')}>${parts.length ? `Box, ${parts.length} parts` : 'Describe the box'}</a></dd></div>
        ${finding.deciding_state && html`<div><dt>worst state</dt><dd>${finding.deciding_state.join(', ')}</dd></div>`}
        ${finding.lost.length > 0 && html`<div><dt>not shown</dt><dd>${finding.lost.join(', ')}</dd></div>`}
        ${finding.heat?.high_c && html`<div><dt>inside</dt><dd>${finding.heat.low_c} to ${finding.heat.high_c} °C</dd></div>`}
    </dl>`
}

export function PointAnswer({ finding, job, id }) {
    if (!finding) return html`<section class="point-answer sheet"><p>The job cannot be judged.</p></section>`
    const { needed } = rowOf(finding)
    const instead = `#/instead?${new URLSearchParams({ need: needed ?? '', mark: '' })}`
    return html`<section class="point-answer sheet stack" aria-label="Answer">
        <div aria-live="polite" class="stack"><${Verdict} verdict=${finding.verdict} large />
            <p>${finding.deciding}</p>
            ${finding.remedy && html`<p class="point-remedy"><strong>${finding.remedy}</strong></p>`}</div>
        <${Rungs} needed=${needed} shown=${finding.shown} form="figures" />
        <${Facts} ...${{ finding, job, id }} />
        <${Position} ...${{ finding, job }} />
        ${needed && html`<p><a class="button" href=${instead}>Will this do instead?</a></p>`}
        <${Fold} label="Reasons" count=${finding.reasons.length} open=${finding.verdict !== 'fits'}><ul class="reasons">${finding.reasons.map((reason) => html`<${Reason} key=${reason.rule} reason=${reason} />`)}</ul><//>
        <${Fold} label="Open, for want of a fact" count=${finding.open.length}><ul class="reasons">${finding.open.map((reason) => html`<${Reason} key=${reason.rule} reason=${reason} />`)}</ul><//>
        <${Fold} label="Remarks" count=${finding.remarks.length}><ul class="print-list">${finding.remarks.map((text) => html`<li key=${text}>${text}</li>`)}</ul><//>
        <${Fold} label="Advice that it is not shown to meet" count=${finding.cautions.length}><ul class="print-list">${finding.cautions.map((text) => html`<li key=${text}>${text}</li>`)}</ul><//>
    </section>`
}
