// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function PointView() {
    return html`<h1>Point</h1>`
}
