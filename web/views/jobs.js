// SPDX-License-Identifier: MIT
//
// The jobs on this device: open one, begin one, take one in from a file.

import { packs } from '../core/rules.js'
import { html, useEffect, useRef, useState } from '../html.js'
import { Icon } from '../parts/icons.js'
import { emptyDocument, documentText } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { allJobs, keepJob, newJobId, recordOf } from '../state/shelf.js'

const today = () => new Date().toLocaleDateString('sv')

async function keepNew(document, text) {
    const id = newJobId()
    await keepJob(recordOf({ id, document, text }))
    go(addressOf(id))
}

function beginJob() {
    const document = emptyDocument({ title: 'New job', pack: localStorage.getItem('pack') ?? packs[0].id, date: today() })
    return keepNew(document, documentText(document))
}

async function takeIn(file) {
    const text = await file.text()
    const read = JSON.parse(text)
    if (read?.dripstone !== 1) throw new Error('it is no job of format 1 ("dripstone": 1)')
    return keepNew({ ...read, points: read.points ?? [] }, text)
}

function JobRow({ record }) {
    return html`<li><a class="job-row sheet" href=${addressOf(record.id)}>
        <span class="job-title">${record.title || 'Job without a title'}</span>
        <span class="quiet small">${record.points} ${record.points === 1 ? 'point' : 'points'}, kept ${new Date(record.saved).toLocaleString()}</span>
    </a></li>`
}

export function JobsView() {
    const [jobs, setJobs] = useState(null)
    const [fault, setFault] = useState('')
    const file = useRef(null)
    useEffect(() => { allJobs().then((all) => setJobs(all.filter(({ removed }) => !removed).sort((a, b) => b.saved.localeCompare(a.saved)))) }, [])
    const take = (event) => {
        const [chosen] = event.target.files
        event.target.value = ''
        if (chosen) takeIn(chosen).catch((error) => setFault(`${chosen.name} could not be taken in: ${error.message}.`))
    }
    return html`<div class="stack jobs">
        <div class="spread"><h1>Jobs</h1>
            <div class="row">
                <button onClick=${() => file.current.click()}><${Icon} name="open" />Open a file</button>
                <button class="primary" onClick=${beginJob}><${Icon} name="add" />New job</button>
            </div></div>
        <input type="file" accept=".json,application/json" ref=${file} onChange=${take} hidden aria-label="Job file" />
        ${fault && html`<p role="alert" class="field-fault">${fault}</p>`}
        ${jobs && !jobs.length && html`<div class="sheet stack measure">
            <h2>Nothing here yet</h2>
            <p>A job holds places, what was seen in them, and the points: sockets, lights, boxes. For each point you get the least protection that the place asks for, and whether the goods keep it.</p>
            <p>Begin one, or open a job file. To hold one code against another, use <a href="#/instead">Will this do?</a></p>
        </div>`}
        ${jobs && html`<ul class="stack">${jobs.map((record) => html`<${JobRow} key=${record.id} record=${record} />`)}</ul>`}
    </div>`
}
