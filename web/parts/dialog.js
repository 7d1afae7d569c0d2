// SPDX-License-Identifier: MIT
//
// A dialog over the page: the browser's own, so focus, Escape and readers behave.
//
//     <${Dialog} title="Remove 3 points" close=${…}>…<//>

import { html, useEffect, useRef } from '../html.js'
import { Icon } from './icons.js'

export function Dialog({ title, close, children }) {
    const box = useRef(null)
    useEffect(() => {
        box.current.showModal()
        return () => box.current?.close()
    }, [])
    return html`<dialog class="dialog" ref=${box} aria-label=${title} onClose=${close}>
        <div class="spread"><h2>${title}</h2>
            <button class="plain" aria-label="Close" onClick=${() => box.current.close()}><${Icon} name="close" /></button></div>
        ${children}
    </dialog>`
}
