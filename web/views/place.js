// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function PlaceView() {
    return html`<h1>Place</h1>`
}
