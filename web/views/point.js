// SPDX-License-Identifier: MIT
//
// One point: the answer beside all that is entered of it. "Next" follows the list of the job's home as it is filtered and
// sorted there.

import { labelOf } from '../core/rules.js'
import { html, useMemo } from '../html.js'
import { Icon } from '../parts/icons.js'
import { ActionButton, useActions } from '../state/actions.js'
import { placeOf, pointOf, withCopies, withoutPoints, withPoint } from '../state/document.js'
import { Heading, linesOf, listedPoints } from '../state/lines.js'
import { listingOf, setListing } from '../state/listing.js'
import { addressOf, go } from '../state/route.js'
import { edit, fullFinding, opened } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { PointAnswer } from './point-answer.js'
import { Entries } from './point-entries.js'

// The points in the order of the list; all of the job when this one is not listed.
function listedIds(job, id) {
    const { document, rows } = opened.get()
    const asked = { document, rows, look: { ...listingOf(job), closed: new Set() }, labelOf }
    const ids = linesOf(listedPoints(asked), asked).filter((line) => !(line instanceof Heading)).map((point) => point.id)
    return ids.includes(id) ? ids : document.points.map((point) => point.id)
}

function goBeside(job, id, step) {
    const ids = listedIds(job, id)
    const next = ids[ids.indexOf(id) + step]
    if (next) setListing({ at: next })
    go(next ? addressOf(job, 'point', next) : addressOf(job))
}

function copyPoint(job, id) {
    const { document } = opened.get()
    const next = withCopies(document, new Set([id]))
    const copy = next.points[next.points.findIndex((point) => point.id === id) + 1]
    edit(`Copy ${id}`, () => next)
    setListing({ at: copy.id })
    go(addressOf(job, 'point', copy.id))
}

function removePoint(job, id) {
    edit(`Remove ${id}`, (now) => withoutPoints(now, new Set([id])))
    go(addressOf(job))
}

function usePointActions(job, id) {
    const list = useMemo(() => [
        { name: 'previous-point', label: 'Point before', icon: 'back', key: 'p', effect: () => goBeside(job, id, -1) },
        { name: 'next-point', label: 'Next point', icon: 'forward', key: 'n', effect: () => goBeside(job, id, 1) },
        { name: 'copy-point', label: 'Copy', icon: 'copy', key: 'c', effect: () => copyPoint(job, id) },
        { name: 'remove-point', label: 'Remove', icon: 'remove', effect: () => removePoint(job, id) }
    ], [job, id])
    useActions(list)
    return list
}

export function PointView({ job, id }) {
    const { document, problem } = useStore(opened)
    const point = pointOf(document, id)
    const finding = useMemo(() => point && fullFinding(id), [document, id])
    const [previous, next, copy, remove] = usePointActions(job, id)
    if (!point) return html`<div class="sheet stack measure"><h1>No such point</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    const change = (label, how) => edit(`${label} of ${id}`, (now) => withPoint(now, id, how))
    const place = placeOf(document, point.place)
    return html`<div class="point">
        <div class="point-head"><div class="point-title"><h1>${id} <span class="point-name">${point.name || labelOf(point.kind)}</span></h1>
            <p class="small"><a href=${addressOf(job)}>All points</a>${place && html` <span class="quiet">/</span> <a href=${addressOf(job, 'place', place.id)}>${place.name || place.id}</a>`}</p></div>
            <div class="point-tools"><${ActionButton} action=${previous} wordless /><${ActionButton} action=${copy} /><${ActionButton} action=${next} look="point-next" />
                <a class="button" href=${addressOf(job, 'point', id, 'box')}><${Icon} name="box" />Box</a><${ActionButton} action=${remove} look="danger" wordless /></div></div>
        <${PointAnswer} ...${{ finding, job, id, problem }} hasPlan=${Boolean(place?.plan)} />
        <${Entries} ...${{ job, document, point, finding, change }} />
    </div>`
}
