// SPDX-License-Identifier: MIT
//
// What a point at this place would need, as the core says it of a sample point that bears no mark; and the points that
// are here with their verdicts. Beside the survey on a desk, at the thumb on a phone.

import { core, Unreadable } from '../core/core.js'
import { labelOf, vocabulary } from '../core/rules.js'
import { html, useMemo, useState } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { Rungs } from '../parts/rungs.js'
import { Verdict } from '../parts/verdict.js'
import { documentText } from '../state/document.js'
import { addressOf } from '../state/route.js'
import { rowOf, opened } from '../state/opened.js'
import { useStore } from '../state/store.js'

const SAMPLE = 'sample'

// The finding of a sample point; undefined when the job cannot be judged.
function sampleFinding(document, place, kind, zone) {
    const point = { id: SAMPLE, place: place.id, kind, ...(zone ? { zone_stated: zone } : {}) }
    try {
        return core.judge(documentText({ ...document, places: [place], points: [point] })).points[0]
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        return undefined
    }
}

const changesVerdict = ({ grade }) => grade === 'rule'

function Reason({ reason }) {
    return html`<li class="reason">
        <span class="code">${reason.needs ?? ''}</span>${reason.bars && html`<strong>Not here: ${reason.bars}</strong>`}
        <span>${reason.because}</span>
        <span class="small quiet">${reason.clause}, ${reason.edition}${reason.source?.kind === 'published' ? '' : `, ${reason.source?.kind}`}${changesVerdict(reason) ? '' : `, ${reason.grade}`}</span>
    </li>`
}

function Zones({ zones, zone, setZone }) {
    return html`<fieldset class="row"><legend class="unseen">Zone of the sample</legend>
        ${zones.map((word) => html`<button key=${word} aria-pressed=${zone === word} onClick=${() => setZone(zone === word ? '' : word)}>${/^\d/.test(word) ? `zone ${word}` : word}</button>`)}</fieldset>`
}

function Here({ points, rows, job }) {
    return html`<ul class="need-points">${points.map(({ id, name }) => html`<li key=${id}>
        <a href=${addressOf(job, 'point', id)}>${rows.get(id) && html`<${Verdict} verdict=${rows.get(id).verdict} />`}<span class="need-name">${name || id}</span></a></li>`)}</ul>`
}

export function PlaceNeed({ document, place, points, job }) {
    const rows = useStore(opened, (state) => state.rows)
    const [kind, setKind] = useState('accessory')
    const [zone, setZone] = useState('')
    const [open, setOpen] = useState(false)
    const finding = useMemo(() => sampleFinding(document, place, kind, zone), [document.rules, document.date, place, kind, zone])
    if (!finding) return html`<aside class="need sheet"><p>The job cannot be judged: ${opened.get().problem?.problem}</p></aside>`
    const { needed } = rowOf(finding)
    const zones = vocabulary.place.find(({ word }) => word === place.kind)?.zones
    const reasons = finding.reasons.filter(({ grade }) => grade !== 'judgement')
    const open_ = [...new Set(finding.open.map(({ because }) => because))]
    const code = needed ?? (finding.needed.access ? `access ${finding.needed.access}` : 'no code')
    return html`<aside class=${`need sheet ${open ? 'need-open' : ''}`} aria-label="What a point here needs">
        <button class="need-bar plain" aria-expanded=${open} onClick=${() => setOpen(!open)}>
            <span class="small quiet">needed here</span><strong class="code need-code">${code}</strong><${Rungs} needed=${needed} /><${Icon} name="down" /></button>
        <div class="need-body stack">
            <div class="need-desk stack"><p class="small quiet">A point here needs at least</p><p class="need-code code" aria-live="polite">${code}</p></div>
            <${Rungs} needed=${needed} form="figures" />
            ${zones && html`<${Zones} ...${{ zones, zone, setZone }} />`}
            <${Picker} label="for a" value=${kind} words=${vocabulary.kind} give=${setKind} />
            <ul class="reasons">${reasons.map((reason) => html`<${Reason} key=${reason.rule} reason=${reason} />`)}</ul>
            ${open_.length > 0 && html`<details><summary>${open_.length} more may count: something is not said</summary><ul class="reasons">${open_.map((text) => html`<li key=${text}>${text}</li>`)}</ul></details>`}
            ${points.length > 0 && html`<h2>Points here</h2><${Here} ...${{ points, rows, job }} />`}
        </div>
    </aside>`
}
