// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function PlanView() {
    return html`<h1>Plan</h1>`
}
