// SPDX-License-Identifier: MIT
//
// Icons drawn for this page: strokes of 1.75 on a grid of 24, round ends, in the colour of the text beside them.

import { html } from '../html.js'

const LINES = {
    back: 'M15 5l-7 7 7 7',
    forward: 'M9 5l7 7-7 7',
    add: 'M12 5v14M5 12h14',
    undo: 'M8 7l-4 4 4 4M4 11h10a5 5 0 0 1 0 10h-3',
    redo: 'M16 7l4 4-4 4M20 11H10a5 5 0 0 0 0 10h3',
    search: 'M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13zM15.5 15.5L20 20',
    more: 'M5 12h.01M12 12h.01M19 12h.01',
    copy: 'M8 8h11v12H8zM5 16V4h11',
    remove: 'M5 7h14M9 7V4h6v3M7 7l1 13h8l1-13',
    plan: 'M4 4h16v16H4zM4 13h7M15 13h5M11 4v5',
    box: 'M4 7h16v13H4zM8 7V4M16 7V4M8 20v1M16 20v1',
    drop: 'M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z',
    grains: 'M6 7h.01M12 5h.01M17 8h.01M8 12h.01M14 12h.01M6 17h.01M12 18h.01M18 16h.01',
    blow: 'M4 20l7-7M9 8l7 7M11 6l7 7M13 4l7 7M8 9l4-4',
    person: 'M12 4a3 3 0 1 0 0 6 3 3 0 0 0 0-6zM5 20c0-4 3-7 7-7s7 3 7 7',
    other: 'M4 6h16M4 12h16M4 18h10',
    question: 'M8.5 9a3.5 3.5 0 1 1 5.3 3c-1.2.7-1.8 1.4-1.8 3M12 18.5h.01',
    print: 'M7 9V4h10v5M5 9h14v8h-3M8 17H5M8 14h8v6H8z',
    save: 'M12 4v11M7 11l5 5 5-5M5 20h14',
    open: 'M4 19V6h6l2 2h8v11zM4 11h16',
    sun: 'M12 8a4 4 0 1 0 0 8 4 4 0 0 0 0-8zM12 2v3M12 19v3M2 12h3M19 12h3M5 5l2 2M17 17l2 2M5 19l2-2M17 7l2-2',
    down: 'M6 9l6 6 6-6',
    close: 'M6 6l12 12M18 6L6 18'
}

export function Icon({ name }) {
    return html`<svg class="icon" width="20" height="20" viewBox="0 0 24 24" fill="none" stroke="currentColor"
        stroke-width="1.75" stroke-linecap="round" stroke-linejoin="round" aria-hidden="true"><path d=${LINES[name]} /></svg>`
}
