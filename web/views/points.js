// SPDX-License-Identifier: MIT
//
// A job's home: how its points stand, its places, and all points in a table that can be filtered, grouped and edited.

import { labelOf } from '../core/rules.js'
import { html, useMemo, useRef, useState } from '../html.js'
import { ActionButton, useActions } from '../state/actions.js'
import { countVerdicts, linesOf, listedPoints, nextNotFitting } from '../state/lines.js'
import { listingOf, setListing, useListing } from '../state/listing.js'
import { opened } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { BulkBar } from './points-bulk.js'
import { JobDialog, PlaceDialog, PointDialog } from './points-dialogs.js'
import { keyOf, PointsTable } from './points-table.js'
import { Head, Nothing, Places, Tools } from './points-tools.js'

// What is listed, made anew only when something that it rests on is another.
function useLines(document, rows, list) {
    const byVerdict = list.verdicts.size > 0 || list.text.trim() !== '' || !['order', 'id', 'name', 'place'].includes(list.sort.by)
    const points = useMemo(() => listedPoints({ document, rows, look: list, labelOf }),
        [document.points, document.places, byVerdict && rows, list.text, list.kind, list.verdicts, list.places, list.sort])
    const lines = useMemo(() => linesOf(points, { document, rows, look: list }), [points, list.group && rows, list.group, list.closed])
    return { points, lines }
}

export function PointsView({ job }) {
    const { document, rows, stale, whole, problem } = useStore(opened)
    const list = useListing(job)
    const [dialog, setDialog] = useState(null)
    const { points, lines } = useLines(document, rows, list)
    const counts = useMemo(() => countVerdicts(document.points, rows), [document.points, rows])
    const isFiltered = points.length !== document.points.length
    const close = () => setDialog(null)
    const latest = useRef(null) // for keys that come before the next drawing is done
    latest.current = { lines, rows }
    const next = () => {
        const { at } = listingOf(job)
        const index = nextNotFitting(latest.current.lines, latest.current.rows, latest.current.lines.findIndex((line) => keyOf(line) === at))
        if (index >= 0) setListing({ at: keyOf(latest.current.lines[index]), wanted: true })
    }
    const add = { name: 'add-point', label: 'Point', icon: 'add', key: 'a', effect: () => setDialog('point'), enabled: () => opened.get().document.places.length > 0 }
    useActions([add,
        { name: 'add-place', label: 'New place', icon: 'add', key: 'l', effect: () => setDialog('place') },
        { name: 'find', label: 'Find a point', icon: 'search', key: '/', effect: () => window.document.getElementById('points-find')?.focus() },
        { name: 'next-point', label: 'Next that does not fit', icon: 'forward', key: 'n', effect: next }])
    return html`<div class="points">
        <${Head} ...${{ job, document, counts, list, whole, problem }} openJobDialog=${() => setDialog('job')} />
        <${Places} ...${{ job, document, rows }} chosen=${list.places} add=${() => setDialog('place')} />
        <section class="points-main" aria-labelledby="points-h">
            <div class="spread"><h2 id="points-h">Points</h2><${ActionButton} action=${add} look="primary" /></div>
            ${document.points.length > 0 && html`<${Tools} ...${{ document, list, isFiltered, stale }} listed=${points.length} />`}
            ${lines.length > 0 ? html`<${PointsTable} ...${{ job, document, rows, lines, list }} />`
                : html`<${Nothing} ...${{ document, isFiltered }} addPlace=${() => setDialog('place')} addPoint=${() => setDialog('point')} openJobDialog=${() => setDialog('job')} />`}
            ${list.chosen.size > 0 && html`<${BulkBar} ...${{ document, lines, list }} />`}
        </section>
        ${dialog === 'job' && html`<${JobDialog} ...${{ document, close }} />`}
        ${dialog === 'place' && html`<${PlaceDialog} ...${{ job, document, close }} />`}
        ${dialog === 'point' && html`<${PointDialog} ...${{ job, document, list, close }} />`}
    </div>`
}
