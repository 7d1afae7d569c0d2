// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function PrintView() {
    return html`<h1>Print</h1>`
}
