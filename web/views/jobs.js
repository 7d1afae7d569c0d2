// SPDX-License-Identifier: MIT
//
// The jobs on this device: open one, begin one, take one in from a file.

import { core } from '../core/core.js'
import { packs } from '../core/rules.js'
import { html, useEffect, useRef, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { Icon } from '../parts/icons.js'
import { emptyDocument, documentText } from '../state/document.js'
import { fileOf } from '../state/reading.js'
import { addressOf, go } from '../state/route.js'
import { allJobs, changeJob, dropJob, keepJob, newJobId, recordOf } from '../state/shelf.js'
import { useStore } from '../state/store.js'
import { syncing, syncNow } from '../state/sync.js'

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
    return keepNew(fileOf(text, core), text)
}

// From this device at once, from the server with the next sync; there its versions stay.
async function removeJob(record) {
    if (record.remote) await changeJob(record.id, (now) => ({ ...now, removed: true }))
    else await dropJob(record.id)
    if (syncing.get().state !== 'off') syncNow()
}

function JobRow({ record, differs, gone }) {
    const [asking, setAsking] = useState(false)
    const title = record.title || 'Job without a title'
    return html`<li class="job-row sheet">
        <a class="job-link" href=${addressOf(record.id)}><span class="job-title">${title}</span>
            <span class="quiet small">${record.points} ${record.points === 1 ? 'point' : 'points'}, kept ${new Date(record.saved).toLocaleString()}</span></a>
        ${differs && html`<a class="button danger" href=${addressOf(record.id, 'conflict')}>Differs from the server</a>`}
        ${record.remote && html`<a class="button plain" href=${addressOf(record.id, 'versions')}>Versions</a>`}
        <button class="plain" aria-label=${`Remove ${title}`} onClick=${() => setAsking(true)}><${Icon} name="remove" /></button>
        ${asking && html`<${Dialog} title=${`Remove ${title}?`} close=${() => setAsking(false)}>
            <p>${record.remote ? 'It goes from this device and from the list of the server. Its versions stay there.' : 'It is nowhere but on this device: save it as a file first if it may be needed.'}</p>
            <button class="danger" onClick=${() => removeJob(record).then(gone)}><${Icon} name="remove" />Remove it</button><//>`}
    </li>`
}

export function JobsView() {
    const [jobs, setJobs] = useState(null)
    const [fault, setFault] = useState('')
    const file = useRef(null)
    const sync = useStore(syncing)
    const look = () => allJobs().then((all) => setJobs(all.filter(({ removed }) => !removed).sort((a, b) => b.saved.localeCompare(a.saved))))
    // What came from the server in the meantime is shown too.
    useEffect(() => { look() }, [sync.state])
    const take = (event) => {
        const [chosen] = event.target.files
        event.target.value = ''
        setFault('')
        if (chosen) takeIn(chosen).catch((error) => setFault(`${chosen.name} is not taken in: ${error.message}.`))
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
        ${jobs && html`<ul class="stack">${jobs.map((record) => html`<${JobRow} key=${record.id} record=${record} differs=${sync.conflicts.has(record.id)} gone=${look} />`)}</ul>`}
    </div>`
}
