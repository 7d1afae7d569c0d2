// SPDX-License-Identifier: MIT
//
// Every version of a job that the server keeps, youngest first: looked at side by side with today's numbers, put back as
// the newest one. Putting back is an edit like any other: undo takes it back.

import { html, useEffect, useState } from '../html.js'
import { Icon } from '../parts/icons.js'
import { documentText } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { fetchVersion, listVersions } from '../state/server.js'
import { opened, replaceDocument } from '../state/opened.js'
import { jobOf } from '../state/shelf.js'
import { useStore } from '../state/store.js'
import { Outcome, useOrders } from './papers.js'

async function versionsOf(job) {
    const record = await jobOf(job)
    if (!record?.remote) throw new Error('it was never sent to a server')
    return { remote: record.remote, versions: await listVersions(record.remote) }
}

function Version({ version, newest, putBack, tellChanges }) {
    const { version: number, saved, points, title, removed } = version
    return html`<li class="job-row sheet"><span class="job-link"><span class="job-title">Version ${number}: ${title || 'without a title'}</span>
        <span class="quiet small">${removed ? 'removed' : `${points} ${points === 1 ? 'point' : 'points'}`}, ${new Date(saved).toLocaleString()}</span></span>
        ${newest ? html`<strong>the newest</strong>` : html`<span class="row"><button onClick=${tellChanges}><${Icon} name="save" />Changes since</button><button onClick=${putBack}><${Icon} name="undo" />Put back</button></span>`}</li>`
}

export function VersionsView({ job }) {
    const [found, setFound] = useState(null)
    const [fault, setFault] = useState('')
    useEffect(() => { versionsOf(job).then(setFound).catch((error) => setFault(error.message)) }, [job])
    const { document } = useStore(opened)
    const [outcome, order] = useOrders(document)
    // The open job may have edits that no version holds yet: they count.
    const tellChanges = (number) => order(`changes since version ${number}`, 'changes', {}, 'pdf',
        fetchVersion(found.remote, number).then((then) => `${then}\x1e${documentText(document)}`))
    const putBack = async (number) => {
        try {
            replaceDocument(`Version ${number} put back`, await fetchVersion(found.remote, number))
            go(addressOf(job))
        } catch (error) {
            setFault(error.message)
        }
    }
    return html`<div class="stack"><h1>Versions</h1>
        ${fault && html`<p class="field-fault" role="alert">The versions cannot be shown: ${fault}.</p>`}
        ${!found && !fault && html`<p class="quiet">Asking the server …</p>`}
        <${Outcome} ...${outcome} />
        ${found && html`<ul class="stack">${found.versions.map((version, index) => html`<${Version} key=${version.version} version=${version} newest=${index === 0} putBack=${() => putBack(version.version)} tellChanges=${() => tellChanges(version.version)} />`)}</ul>`}
    </div>`
}
