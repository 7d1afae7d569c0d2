// SPDX-License-Identifier: MIT
//
// The small dialogs of a job's home: what the job goes by, a new place, a new point.

import { packs, vocabulary } from '../core/rules.js'
import { html, useEffect, useRef, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { ChoiceField, TextField } from '../parts/field.js'
import { Picker } from '../parts/picker.js'
import { addPlace, addPoint, freeId, idFromName, pointsAt, withKey } from '../state/document.js'
import { setListing } from '../state/listing.js'
import { addressOf, go } from '../state/route.js'
import { edit, opened } from '../state/opened.js'

// --- the job --------------------------------------------------------------------------------------------------------

function RulePacks({ rules }) {
    const strange = rules.filter((id) => !packs.some((pack) => pack.id === id)).map((id) => ({ id, edition: 'not known here' }))
    // One edition of one country; what this page does not know, a client's own pack, stays beside it.
    const choose = (id) => {
        edit(`Rule pack ${id}`, (document) => ({ ...document, rules: [id, ...strange.map((pack) => pack.id)] }))
        localStorage.setItem('pack', id) // the next job begins with it
    }
    const remove = (id) => edit(`Without rule pack ${id}`, (document) => ({ ...document, rules: rules.filter((each) => each !== id) }))
    return html`<fieldset class="stack"><legend><h3>Rules gone by</h3></legend>
        <div class="points-packs">${[...packs, ...strange].map(({ id, title, edition }) => html`<button key=${id} aria-pressed=${rules.includes(id)} onClick=${() => (strange.some((pack) => pack.id === id) ? remove(id) : choose(id))}>
            <span>${edition}<span class="quiet small points-pack">${title ?? ''}</span></span><span class="quiet small">${id}</span></button>`)}</div>
        ${!rules.length && html`<p class="field-fault">Without a rule pack every point is unknown.</p>`}
    </fieldset>`
}

export function JobDialog({ document, close }) {
    const set = (key, label) => (value) => edit(label, (now) => withKey(now, key, value))
    return html`<${Dialog} title="Title and rules" close=${close}>
        <${TextField} label="Title" value=${document.title} give=${set('title', 'Title of the job')} />
        <div class="field"><label for="job-date">Date of the survey</label>
            <input id="job-date" type="date" class="points-date" value=${document.date ?? ''} onChange=${(event) => set('date', 'Date of the job')(event.target.value)} /></div>
        <${RulePacks} rules=${Array.isArray(document.rules) ? document.rules : []} />
    <//>`
}

// --- a new place, a new point ---------------------------------------------------------------------------------------

function useDraft(start) {
    const [draft, setDraft] = useState(start)
    const give = (key) => (value) => setDraft((now) => ({ ...now, [key]: value }))
    return [draft, give]
}

// A field gives its value when it is left; the button of a form reads what was typed before that.
const typed = (form, name) => form.querySelector(`[data-draft=${name}] input`).value.trim()

const onSubmit = (act) => (event) => {
    event.preventDefault()
    act(event.currentTarget, event.submitter)
}

export function PlaceDialog({ job, document, close }) {
    const last = document.places[document.places.length - 1]
    const [draft, give] = useDraft({ kind: '', setting: last?.setting ?? 'indoors' })
    const [fault, setFault] = useState('')
    const add = (form) => {
        if (!draft.kind) return setFault('Say what it is: a kitchen, a yard, a room with a bath.')
        const name = typed(form, 'name')
        const id = idFromName(document.places, name || draft.kind, 'place')
        edit(`Add ${name || draft.kind}`, (now) => addPlace(now, { id, ...(name ? { name } : {}), kind: draft.kind, setting: draft.setting }))
        close()
        return go(addressOf(job, 'place', id))
    }
    return html`<${Dialog} title="New place" close=${close}>
        <form class="stack" onSubmit=${onSubmit(add)}>
            <div data-draft="name"><${TextField} label="Name" give=${() => {}} autofocus hint="as people on site call it" /></div>
            <${Picker} label="What it is" value=${draft.kind} words=${vocabulary.place} give=${give('kind')} />
            <${ChoiceField} label="Setting" value=${draft.setting} choices=${vocabulary.setting} give=${give('setting')} />
            ${fault && html`<p class="field-fault" role="alert">${fault}</p>`}
            <div class="row"><button class="primary">Add and survey it</button></div>
        </form>
    <//>`
}

// Where the next point most likely is: the chosen place, else that of the last point.
const likelyPlace = (document, list) => (list.places.size === 1 ? [...list.places][0] : list.lastPlace ?? document.points[document.points.length - 1]?.place ?? document.places[0].id)

export function PointDialog({ job, document, list, close }) {
    const [draft, give] = useDraft({ kind: list.lastKind ?? document.points[document.points.length - 1]?.kind ?? 'socket-outlet', place: likelyPlace(document, list) })
    const [added, setAdded] = useState([])
    const name = useRef(null)
    useEffect(() => name.current.querySelector('input').focus(), [added.length])
    const add = (form, button) => {
        const { document: now } = opened.get()
        const last = pointsAt(now, draft.place).at(-1)?.id
        const point = withKey({ id: freeId(now.points, 'P', last), place: draft.place, kind: draft.kind }, 'name', typed(form, 'name'))
        edit(`Add ${point.id}`, (from) => addPoint(from, point, last))
        setListing({ lastPlace: draft.place, lastKind: draft.kind, at: point.id })
        if (button?.value === 'more') return setAdded([...added, point.id])
        close()
        return go(addressOf(job, 'point', point.id))
    }
    return html`<${Dialog} title="New point" close=${close}>
        <form class="stack" onSubmit=${onSubmit(add)}>
            <div data-draft="name" ref=${name}><${TextField} key=${added.length} label="Name" give=${() => {}} hint="left out, it goes by its kind" /></div>
            <${Picker} label="What it is" value=${draft.kind} words=${vocabulary.kind} give=${give('kind')} />
            <${ChoiceField} label="Place" value=${draft.place} choices=${document.places.map(({ id, name }) => ({ word: id, label: name || id }))} give=${give('place')} />
            <p class="small quiet" role="status">${added.length > 0 && `Added ${added.join(', ')}.`}</p>
            <div class="row"><button class="primary" value="open">Add and open</button><button value="more">Add, and one more</button></div>
        </form>
    <//>`
}
