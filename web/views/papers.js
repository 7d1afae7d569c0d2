// SPDX-License-Identifier: MIT
//
// Papers of the open job for each of its readers, labels and a spreadsheet. The server sets them (docs/api.md); without one
// it says where they can be had.

import { html, useState } from '../html.js'
import { ChoiceField, TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { fileNameOf, saveFile } from '../parts/save-file.js'
import { documentText } from '../state/document.js'
import { Away, orderFile, Refused } from '../state/server.js'
import { useStore } from '../state/store.js'
import { syncing } from '../state/sync.js'

const PAPERS = [
    { reader: 'client', label: 'Client', hint: 'what must change, in plain words' },
    { reader: 'fitter', label: 'Fitter', hint: 'what to put right; every point and box' },
    { reader: 'buyer', label: 'Buyer', hint: 'quantities by code and kind' },
    { reader: 'inspector', label: 'Inspector', hint: 'need, evidence, room to write' },
    { reader: 'all', label: 'All in one', hint: 'with cover and contents' }
]
const SIZES = [{ word: 'a4', label: 'A4' }, { word: 'letter', label: 'Letter' }]

// One order at a time: what is on its way, or what went wrong with the last. The text may have to be waited for.
export function useOrders(document) {
    const [state, setState] = useState({ busy: '', fault: '' })
    const order = async (what, name, query, ending, text = documentText(document)) => {
        if (state.busy) return
        setState({ busy: what, fault: '' })
        try {
            saveFile(`${fileNameOf(document.title)}, ${what}.${ending}`, await orderFile(name, query, await text))
            setState({ busy: '', fault: '' })
        } catch (error) {
            if (!(error instanceof Away) && !(error instanceof Refused)) throw error
            setState({ busy: '', fault: error instanceof Away ? 'the server does not answer' : error.message })
        }
    }
    return [state, order]
}

export const Outcome = ({ busy, fault }) => html`<p role="status" class="quiet">${busy && `Being set: ${busy} …`}</p>
    ${fault && html`<p class="field-fault" role="alert">That could not be set: ${fault}.</p>`}`

function Labels({ size, busy, order }) {
    const [sheet, setSheet] = useState({ grid: '3x8', label: '70x37', skip: '0' })
    const change = (key) => (value) => setSheet({ ...sheet, [key]: value.replaceAll(' ', '').replace('×', 'x') })
    return html`<details><summary>Labels, one a piece, with a code to scan</summary><div class="stack">
        <div class="papers-sheet">
            <${TextField} label="Columns x rows" value=${sheet.grid} give=${change('grid')} />
            <${TextField} label="One label, mm" value=${sheet.label} give=${change('label')} />
            <${TextField} label="Used up already" value=${sheet.skip} give=${change('skip')} />
        </div>
        <button aria-disabled=${busy} onClick=${() => order('labels', 'labels', { ...sheet, size }, 'pdf')}><${Icon} name="save" />Labels</button>
    </div></details>`
}

function Orders({ document }) {
    const [size, setSize] = useState('a4')
    const [{ busy, fault }, order] = useOrders(document)
    return html`
        <div class="papers-size"><${ChoiceField} label="Paper size" value=${size} choices=${SIZES} give=${setSize} /></div>
        <ul class="papers-list">${PAPERS.map(({ reader, label, hint }) => html`<li key=${reader}><button aria-disabled=${!!busy}
            onClick=${() => order(reader, 'paper', { for: reader, size }, 'pdf')}><${Icon} name="save" />${label}</button><span class="quiet">${hint}</span></li>`)}
            <li><button aria-disabled=${!!busy} onClick=${() => order('sheet', 'sheet', {}, 'xlsx')}><${Icon} name="save" />Spreadsheet</button><span class="quiet">a sheet for each, with filters</span></li></ul>
        <${Labels} ...${{ size, busy: !!busy, order }} />
        <${Outcome} ...${{ busy, fault }} />`
}

export function Papers({ document }) {
    const { state } = useStore(syncing)
    return html`<section class="papers sheet stack no-print" aria-labelledby="papers-head"><h2 id="papers-head">Papers for each reader</h2>
        ${state === 'off' ? html`<p>The program sets them, with labels and a spreadsheet: open the page with <code>dripstone serve</code>, or save the job and use <code>dripstone paper</code>.</p>`
            : html`<${Orders} document=${document} />`}
    </section>`
}
