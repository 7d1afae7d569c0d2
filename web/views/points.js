// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function PointsView() {
    return html`<h1>Points</h1>`
}
