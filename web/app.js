// SPDX-License-Identifier: MIT
//
// The page starts here: opens the core, then draws the view that the address names.

import { openPageCore } from './core/core.js'
import { isOneFile } from './core/parts.js'
import { html, render } from './html.js'
import { Shell } from './parts/shell.js'
import './state/keeping.js'
import { startSync } from './state/sync.js'

const page = document.getElementById('page')

function say(text) {
    page.textContent = ''
    const line = page.appendChild(document.createElement('p'))
    line.className = 'loading'
    line.textContent = text
}

const slow = setTimeout(() => say('Opening …'), 100)

try {
    await openPageCore()
    clearTimeout(slow)
    page.textContent = ''
    render(html`<${Shell} />`, page)
    if (!isOneFile()) startSync()
} catch (error) {
    clearTimeout(slow)
    say(`The page could not start: ${error.message}. Reload it; what was entered is kept in this browser.`)
    throw error
}
