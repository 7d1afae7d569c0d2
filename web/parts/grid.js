// SPDX-License-Identifier: MIT
//
// A long list of which only what is on screen is in the page: rows of one height, moved through by keys.
//
//     <${Grid} label="Points" items=${items} height=${48} keyOf=${…} row=${(item, at) => html`…`} open=${(item) => …} toggle=${…} />
//
// Arrows, Page Up and Down, Home and End move, Enter opens, the space bar chooses. Items without keyOf(item) are headings.

import { html, useLayoutEffect, useRef, useState } from '../html.js'

const SPARE_ROWS = 6

export function Grid({ label, items, height, keyOf, row, open, toggle, head }) {
    const box = useRef(null)
    const [top, setTop] = useState(0)
    const [room, setRoom] = useState(600)
    const [active, setActive] = useState(0)
    const moved = useRef(false)
    useLayoutEffect(() => {
        const watch = new ResizeObserver(([entry]) => setRoom(entry.contentRect.height))
        watch.observe(box.current)
        return () => watch.disconnect()
    }, [])
    const at = Math.min(active, Math.max(0, items.length - 1))
    useLayoutEffect(() => {
        if (!moved.current) return
        moved.current = false
        box.current.querySelector('[tabindex="0"]')?.focus({ preventScroll: true })
    })
    const page = Math.max(1, Math.floor(room / height) - 1)
    const go = (to) => {
        const next = Math.max(0, Math.min(items.length - 1, to))
        const y = next * height
        if (y < box.current.scrollTop) box.current.scrollTop = y
        else if (y + height > box.current.scrollTop + room) box.current.scrollTop = y + height - room
        moved.current = true
        setTop(box.current.scrollTop)
        setActive(next)
    }
    const steps = { ArrowDown: 1, ArrowUp: -1, PageDown: page, PageUp: -page, Home: -Infinity, End: Infinity }
    const onKeyDown = (event) => {
        if (event.target.closest('input, button, a') && event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return
        if (event.key in steps) {
            event.preventDefault()
            go(steps[event.key] === -Infinity ? 0 : at + steps[event.key] === Infinity ? items.length - 1 : at + steps[event.key])
        } else if (event.key === 'Enter' && keyOf(items[at])) open(items[at])
        else if (event.key === ' ' && keyOf(items[at])) {
            event.preventDefault()
            toggle?.(items[at], event.shiftKey)
        }
    }
    const first = Math.max(0, Math.floor(top / height) - SPARE_ROWS)
    const last = Math.min(items.length, Math.ceil((top + room) / height) + SPARE_ROWS)
    return html`<div class="grid" role="grid" aria-label=${label} aria-rowcount=${items.length} aria-multiselectable="true">
        ${head}
        <div class="grid-box" role="rowgroup" ref=${box} onScroll=${(event) => setTop(event.target.scrollTop)} onKeyDown=${onKeyDown}>
            <div class="grid-all" role="presentation" style=${{ height: `${items.length * height}px` }}>
                ${items.slice(first, last).map((item, index) => html`<div key=${keyOf(item) ?? `head ${first + index}`} role="row" aria-rowindex=${first + index + 1}
                    class=${`grid-row ${keyOf(item) ? '' : 'grid-heading'}`} tabindex=${first + index === at ? 0 : -1}
                    style=${{ top: `${(first + index) * height}px`, height: `${height}px` }} onFocus=${() => setActive(first + index)}
                    onClick=${(event) => keyOf(item) && !event.target.closest('input, label, a') && open(item)}>${row(item)}</div>`)}
            </div>
        </div>
    </div>`
}
