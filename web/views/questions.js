// SPDX-License-Identifier: MIT

import { html } from '../html.js'

export function QuestionsView() {
    return html`<h1>Questions</h1>`
}
