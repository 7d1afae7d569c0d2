// SPDX-License-Identifier: MIT
//
// What stands round every view: the way home, the job's title, undo and redo, how it is kept, the looks, the keys.

import { html, useEffect, useState } from '../html.js'
import { ActionButton, actionOf, actions, isLetterKey, keyWord, letterKeys, useActions } from '../state/actions.js'
import { addressOf, route } from '../state/route.js'
import { isKept, keeping } from '../state/keeping.js'
import { closeJob, openJob, opened } from '../state/opened.js'
import { jobOf } from '../state/shelf.js'
import { useStore } from '../state/store.js'
import { syncing } from '../state/sync.js'
import { BoxView } from '../views/box.js'
import { ConflictView } from '../views/conflict.js'
import { ImportView } from '../views/import.js'
import { InsteadView } from '../views/instead.js'
import { JobsView } from '../views/jobs.js'
import { PlaceView } from '../views/place.js'
import { PlanView } from '../views/plan.js'
import { PointView } from '../views/point.js'
import { PointsView } from '../views/points.js'
import { PrintView } from '../views/print.js'
import { QuestionsView } from '../views/questions.js'
import { VersionsView } from '../views/versions.js'
import { Dialog } from './dialog.js'
import { CheckField } from './field.js'
import { Icon } from './icons.js'

const VIEWS = {
    jobs: JobsView,
    instead: InsteadView,
    job: PointsView,
    place: PlaceView,
    plan: PlanView,
    point: PointView,
    box: BoxView,
    questions: QuestionsView,
    print: PrintView,
    import: ImportView,
    versions: VersionsView,
    conflict: ConflictView
}

const THEMES = [['', 'as the device'], ['light', 'light'], ['dark', 'dark'], ['sun', 'full sun']]

function useTheme() {
    const [theme, setTheme] = useState(localStorage.getItem('theme') ?? '')
    useEffect(() => {
        if (theme) document.documentElement.dataset.theme = theme
        else delete document.documentElement.dataset.theme
        localStorage.setItem('theme', theme)
    }, [theme])
    return [theme, setTheme]
}

function Keys() {
    const { on } = useStore(letterKeys)
    const keyed = actions.get().all.filter(({ key }) => key && (on || !isLetterKey(key)))
    return html`<h3>Keys</h3>
        <${CheckField} label="Keys of one letter or sign" value=${on} give=${(next) => letterKeys.set({ on: next })} />
        <dl class="keys">${keyed.map(({ name, label, key }) => html`<div key=${name}><dt>${label}</dt><dd><kbd>${keyWord(key)}</kbd></dd></div>`)}</dl>`
}

function Looks({ close, theme, setTheme }) {
    return html`<${Dialog} title="Looks and keys" close=${close}>
        <fieldset class="stack"><legend><h3>Contrast</h3></legend>
            <div class="row">${THEMES.map(([word, label]) => html`<button key=${word} aria-pressed=${theme === word} onClick=${() => setTheme(word)}>${label}</button>`)}</div>
        </fieldset>
        <${Keys} />
        <p class="small quiet">A working aid and no certificate: a competent, licensed person decides and signs.</p>
    <//>`
}

// One quiet word about where the work is.
function Kept({ job }) {
    const { state, why } = useStore(keeping)
    const { state: sync } = useStore(syncing)
    const word = state === 'failed' ? `not kept: ${why}` : state === 'keeping' ? 'keeping …' : { off: 'kept on this device', sent: 'kept and sent', sending: 'sending …', away: 'kept here, server away', refused: 'kept here, refused by the server' }[sync]
    if (sync === 'conflict') return html`<span class="kept small kept-alarm" role="status"><a href=${addressOf(job, 'conflict')}>differs from the server</a></span>`
    return html`<span class=${`kept small ${state === 'failed' || sync === 'refused' ? 'kept-alarm' : 'quiet'}`} role="status">${word}</span>`
}

function JobHeader({ job }) {
    const { document } = useStore(opened)
    useStore(actions)
    return html`
        <a class="shell-title" href=${addressOf(job)}>${document?.title || 'Job without a title'}</a>
        <${Kept} job=${job} />
        <span class="shell-tools">
            <${ActionButton} action=${actionOf('undo')} look="plain" wordless />
            <${ActionButton} action=${actionOf('redo')} look="plain" wordless />
        </span>`
}

// Opens the job that the address names.
function useJobOf(at) {
    const [fault, setFault] = useState(null)
    useEffect(() => {
        if (!at.job) return closeJob()
        if (opened.get().id === at.job) return
        let stays = true
        jobOf(at.job).then((record) => {
            if (!stays) return
            if (!record) return setFault('This job is not on this device.')
            openJob(record)
            isKept(opened.get().document)
            setFault(null)
        }).catch((error) => stays && setFault(error.message))
        return () => { stays = false }
    }, [at.job])
    return fault
}

export function Shell() {
    const at = useStore(route)
    const open = useStore(opened, ({ id }) => id)
    const [theme, setTheme] = useTheme()
    const [looks, setLooks] = useState(false)
    const fault = useJobOf(at)
    useActions([{ name: 'keys', label: 'Looks and keys', icon: 'sun', key: '?', effect: () => setLooks(true) }])
    useEffect(() => {
        document.getElementById('main')?.focus({ preventScroll: true })
        scrollTo(0, 0)
    }, [at.view, at.job, at.id])
    const View = VIEWS[at.view]
    return html`
        <a class="skip" href="#main" onClick=${(event) => { event.preventDefault(); document.getElementById('main').focus() }}>To the content</a>
        <header class="shell no-print">
            <a class="shell-home" href="#/" aria-label="All jobs"><img src=${iconAddress()} alt="" width="28" height="28" /></a>
            ${at.job && open === at.job ? html`<${JobHeader} job=${at.job} />` : html`<a class="shell-title shell-name" href="#/">Dripstone</a>`}
            <a class="button plain shell-instead" href="#/instead">Will this do?</a>
            <button class="plain" aria-label="Looks and keys" onClick=${() => setLooks(true)}><${Icon} name="sun" /></button>
        </header>
        <main id="main" tabindex="-1" class=${`view view-${at.view}`} data-at=${[at.view, at.id].filter(Boolean).join(' ')}>
            ${fault ? html`<div class="sheet stack measure"><h1>Not here</h1><p>${fault}</p><p><a class="button" href="#/">All jobs</a></p></div>`
                : at.job && open !== at.job ? html`<p class="loading">Opening …</p>`
                : html`<${View} key=${`${at.view} ${at.job} ${at.id} ${at.query}`} ...${at} />`}
        </main>
        ${looks && html`<${Looks} close=${() => setLooks(false)} ...${{ theme, setTheme }} />`}`
}

// The icon stands in the page's head, as a file or inside the one-file page.
const iconAddress = () => document.querySelector('link[rel=icon]').href
