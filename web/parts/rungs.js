// SPDX-License-Identifier: MIT
//
// The rung picture, drawn by the core. form: 'mark' for a row, 'figures' beside an answer, 'words' for the wall.

import { core } from '../core/core.js'
import { html } from '../html.js'

export function Rungs({ needed, shown, form = 'mark' }) {
    const picture = core.rungs({ needed, shown }, form)
    return picture && html`<span class=${`rungs-picture rungs-${form}`} dangerouslySetInnerHTML=${{ __html: picture }} />`
}
