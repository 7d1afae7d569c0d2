// SPDX-License-Identifier: MIT
//
// The points as a table, or as cards of two lines where it is narrow. Of 40,000 lines only those on the screen are in
// the page, each of the same height, at its place in a tall body; the line that has the focus is always one of them.
//
//     <${PointsTable} ...${{ job, document, rows, lines, list }} />     list: state/listing.js

import { labelOf } from '../core/rules.js'
import { Component, html, useEffect, useLayoutEffect, useRef, useState } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Rungs } from '../parts/rungs.js'
import { Verdict, verdicts } from '../parts/verdict.js'
import { useWide } from '../parts/wide.js'
import { Heading, idsBetween, nameOfPlace } from '../state/lines.js'
import { setListing, toggled } from '../state/listing.js'
import { addressOf, go } from '../state/route.js'

export const COLUMNS = [
    { by: 'verdict', label: 'Verdict' },
    { by: 'id', label: 'Id' },
    { by: 'name', label: 'Name' },
    { by: 'place', label: 'Place' },
    { by: 'needed', label: 'Needed' },
    { by: 'marked', label: 'Marked' },
    { by: 'deciding', label: 'What decides' }
]

const NARROW = '(max-width: 60rem)' // as in points-table.css
const HEIGHT_REM = { cards: 4.75, table: 2.75 }
const BEYOND = 6 // lines kept ready above and below the screen
const STEP = 4 // drawn anew only when so many lines went by

export const keyOf = (line) => (line instanceof Heading ? `# ${line.key}` : line.id)

// --- lines ----------------------------------------------------------------------------------------------------------

// "IP54; limited surface temperature" -> "IP54"
const codeIn = (needed) => (needed.startsWith('IP') || needed.startsWith('IK') ? needed.split(';')[0] : '')

const SHOWN_PROPS = ['point', 'row', 'place', 'at', 'chosen', 'tabbable', 'height']

// Drawn again only when what it shows is another.
class Line extends Component {
    shouldComponentUpdate(next) {
        return SHOWN_PROPS.some((key) => next[key] !== this.props[key])
    }

    render({ point, row, place, at, chosen, tabbable, height, job }) {
        return html`<div role="row" class="line" aria-rowindex=${at + 2} aria-selected=${chosen} tabindex=${tabbable ? 0 : -1} data-at=${at} style=${`top:${at * height}px;height:${height}px`}>
            <div role="gridcell" class="line-choose"><input type="checkbox" tabindex="-1" checked=${chosen} aria-label=${`Choose ${point.id}`} /></div>
            <div role="gridcell" class="line-verdict">${row ? html`<${Verdict} verdict=${row.verdict} />` : html`<span class="quiet">…</span>`}</div>
            <div role="gridcell" class="line-id"><a tabindex="-1" href=${addressOf(job, 'point', point.id)}>${point.id}</a></div>
            <div role="gridcell" class="line-name">${point.name || labelOf(point.kind)}${point.count > 1 && html`<span class="quiet"> ×${point.count}</span>`}</div>
            <div role="gridcell" class="line-place quiet">${place}</div>
            <div role="gridcell" class="line-needed">${row && html`<span aria-hidden="true"><${Rungs} needed=${codeIn(row.needed)} shown=${row.shown} /></span>`}<span class="code">${row?.needed}</span></div>
            <div role="gridcell" class="line-marked code">${row?.marked}</div>
            <div role="gridcell" class="line-deciding">${row?.deciding}</div>
        </div>`
    }
}

function HeadingLine({ heading, at, tabbable, height, closed, byVerdict }) {
    return html`<div role="row" class="line line-heading" aria-rowindex=${at + 2} tabindex=${tabbable ? 0 : -1} data-at=${at} style=${`top:${at * height}px;height:${height}px`}>
        <div role="gridcell" aria-colspan="8" class="line-heading-cell"><button class="plain" tabindex="-1" aria-expanded=${!closed}><${Icon} name=${closed ? 'forward' : 'down'} /><span class=${`line-heading-name ${byVerdict && heading.key ? 'unseen' : ''}`}>${heading.label}</span></button>
            <span class="line-heading-counts">${verdicts.map((verdict) => heading.counts[verdict] > 0 && html`<${Verdict} key=${verdict} verdict=${verdict} count=${heading.counts[verdict]} />`)}</span></div>
    </div>`
}

// --- what is on the screen ------------------------------------------------------------------------------------------

function useLayout() {
    const cards = useWide(NARROW)
    const rem = parseFloat(getComputedStyle(document.documentElement).fontSize)
    return { cards, height: Math.round(HEIGHT_REM[cards ? 'cards' : 'table'] * rem) }
}

// First and last line to draw, from the window's scrolling.
function useRange(body, job, height, count) {
    const [range, setRange] = useState({ first: 0, last: 30 })
    useLayoutEffect(() => {
        const look = () => {
            const top = Math.max(0, -body.current.getBoundingClientRect().top)
            const first = Math.max(0, Math.floor(top / height / STEP) * STEP - BEYOND)
            const last = Math.ceil((top + innerHeight) / height / STEP) * STEP + BEYOND
            setRange((now) => (now.first === first && now.last === last ? now : { first, last }))
        }
        look()
        addEventListener('scroll', look, { passive: true })
        addEventListener('resize', look)
        return () => {
            removeEventListener('scroll', look)
            removeEventListener('resize', look)
        }
    }, [job, height, count])
    return range
}

const scrolled = new Map() // job -> where its list was left

// Back from a point the list stands where it was, once the shell has gone to the top of the new view.
function useScrollKept(job) {
    useEffect(() => {
        const keep = () => scrolled.set(job, scrollY)
        const soon = setTimeout(() => {
            if (scrolled.get(job)) scrollTo(0, scrolled.get(job))
            addEventListener('scroll', keep, { passive: true })
        })
        return () => {
            clearTimeout(soon)
            removeEventListener('scroll', keep)
        }
    }, [job])
}

// Scrolls so that a line is between the head of the table and the bar below.
function reveal(body, at, height) {
    const top = body.getBoundingClientRect().top + at * height
    const head = body.previousElementSibling
    const under = (head.offsetHeight ? head.getBoundingClientRect().bottom : document.querySelector('.shell').offsetHeight) + 4
    const least = Math.min(under, innerHeight / 3)
    const most = innerHeight - height - (document.querySelector('.bulk')?.offsetHeight ?? 0) - 8
    if (top < least) scrollBy(0, top - least)
    else if (top > most) scrollBy(0, top - most)
}

// --- choosing and going about ---------------------------------------------------------------------------------------

const steps = (page) => ({ ArrowDown: 1, ArrowUp: -1, PageDown: page, PageUp: -page, Home: -Infinity, End: Infinity })

function choose(list, lines, at, { extend }) {
    const line = lines[at]
    if (line instanceof Heading) return
    const anchor = extend && list.anchor !== null ? lines.findIndex((each) => keyOf(each) === list.anchor) : -1
    if (anchor < 0) setListing({ chosen: toggled(list.chosen, line.id), anchor: line.id, at: line.id })
    else setListing({ chosen: new Set([...list.chosen, ...idsBetween(lines, anchor, at)]), at: line.id })
}

export const chooseAll = (lines) => setListing({ chosen: new Set(idsBetween(lines, 0, lines.length - 1)) })

function activate(job, list, line) {
    if (line instanceof Heading) setListing({ closed: toggled(list.closed, line.key), at: keyOf(line) })
    else {
        setListing({ at: line.id })
        go(addressOf(job, 'point', line.id))
    }
}

function onKey(event, { job, list, lines, at, page, focus }) {
    const step = steps(page)[event.key]
    if (step !== undefined) {
        event.preventDefault()
        const to = Math.max(0, Math.min(lines.length - 1, at + step))
        if (event.shiftKey && Number.isFinite(step)) setListing({ chosen: new Set([...list.chosen, ...idsBetween(lines, at, to)]) })
        focus(to)
    } else if (event.key === 'Enter' && event.target.role !== 'checkbox') {
        event.preventDefault()
        activate(job, list, lines[at])
    } else if (event.key === ' ') {
        event.preventDefault()
        if (lines[at] instanceof Heading) activate(job, list, lines[at])
        else choose(list, lines, at, { extend: event.shiftKey })
    } else if (event.key === 'a' && (event.ctrlKey || event.metaKey)) {
        event.preventDefault()
        chooseAll(lines)
    } else if (event.key === 'Escape' && list.chosen.size) setListing({ chosen: new Set() })
}

function onPress(event, { job, list, lines }) {
    const element = event.target.closest('[data-at]')
    if (!element) return
    const at = Number(element.dataset.at)
    if (event.target.closest('.line-choose') || event.shiftKey) {
        if (event.target.tagName !== 'INPUT') event.preventDefault()
        choose(list, lines, at, { extend: event.shiftKey })
    } else if (!event.target.closest('a')) activate(job, list, lines[at])
    else setListing({ at: keyOf(lines[at]) })
}

// --- the table ------------------------------------------------------------------------------------------------------

function SortHead({ column, sort }) {
    const isBy = sort.by === column.by
    const press = () => setListing({ sort: isBy && sort.down ? { by: 'order', down: false } : { by: column.by, down: isBy } })
    return html`<div role="columnheader" class=${`line-${column.by}`} aria-sort=${isBy ? (sort.down ? 'descending' : 'ascending') : undefined}>
        <button class="plain table-sort" onClick=${press}>${column.label}<span class=${`table-arrow ${isBy ? (sort.down ? 'table-down' : 'table-up') : ''}`} aria-hidden="true"></span></button></div>`
}

function Head({ lines, list }) {
    const all = list.chosen.size > 0 && lines.every((line) => line instanceof Heading || list.chosen.has(line.id))
    return html`<div role="row" class="line table-head" aria-rowindex="1">
        <div role="columnheader" class="line-choose"><input type="checkbox" aria-label="Choose all that are listed" checked=${all} onClick=${() => (all ? setListing({ chosen: new Set() }) : chooseAll(lines))} /></div>
        ${COLUMNS.map((column) => html`<${SortHead} key=${column.by} column=${column} sort=${list.sort} />`)}
    </div>`
}

// The lines on the screen, and the one with the focus wherever it is.
function drawn(lines, { first, last }, at) {
    const shown = []
    for (let index = first; index < Math.min(last, lines.length); index++) shown.push(index)
    if (at < first || at >= last) shown.push(at)
    return shown.filter((index) => lines[index])
}

export function PointsTable({ job, document: jobDocument, rows, lines, list }) {
    const body = useRef(null)
    const wanted = useRef(null) // the line to put the focus on once it is drawn
    const { cards, height } = useLayout()
    const range = useRange(body, job, height, lines.length)
    useScrollKept(job)
    const found = list.at === null ? 0 : lines.findIndex((line) => keyOf(line) === list.at)
    const at = Math.max(0, found)
    const focus = (index) => {
        wanted.current = index
        setListing({ at: keyOf(lines[index]) })
    }
    useLayoutEffect(() => {
        if (wanted.current === null && list.wanted === undefined) return
        reveal(body.current, at, height)
        body.current.querySelector(`[data-at="${at}"]`)?.focus({ preventScroll: true })
        wanted.current = null
        if (list.wanted) setListing({ wanted: undefined })
    })
    const page = Math.max(1, Math.floor(innerHeight / height) - 3)
    return html`<div role="grid" class=${`table ${cards ? 'table-cards' : ''}`} aria-label="Points" aria-rowcount=${lines.length + 1} aria-multiselectable="true">
        <${Head} ...${{ lines, list }} />
        <div role="rowgroup" class="table-body" ref=${body} style=${`height:${lines.length * height}px`}
            onMouseDown=${(event) => event.shiftKey && event.preventDefault() /* a range of points, not of text */}
            onClick=${(event) => onPress(event, { job, list, lines })} onKeyDown=${(event) => onKey(event, { job, list, lines, at, page, focus })}
            onFocusIn=${(event) => { const line = lines[event.target.closest('[data-at]')?.dataset.at]; if (line && keyOf(line) !== list.at) setListing({ at: keyOf(line) }) }}>
            ${drawn(lines, range, at).map((index) => {
                const line = lines[index]
                const common = { key: keyOf(line), at: index, height, tabbable: index === at }
                if (line instanceof Heading) return html`<${HeadingLine} ...${common} heading=${line} closed=${list.closed.has(line.key)} byVerdict=${list.group === 'verdict'} />`
                return html`<${Line} ...${common} ...${{ job, point: line }} row=${rows.get(line.id)} place=${nameOfPlace(jobDocument, line.place)} chosen=${list.chosen.has(line.id)} />`
            })}
        </div>
    </div>`
}
