// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function InsteadView() {
    return html`<h1>Instead</h1>`
}
