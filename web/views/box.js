// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function BoxView() {
    return html`<h1>Box</h1>`
}
