// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function ConflictView() {
    return html`<h1>Conflict</h1>`
}
