// SPDX-License-Identifier: MIT
//
// Papers and labels, read back with tools that are not ours: node tests/paper.mjs
//
// poppler reads text, fonts, tags and places of words, qpdf checks the file, zbar reads the codes of labels. What each
// paper must hold comes from `dripstone check JOB --json`. With --keep the papers stay in a folder that is named.

import { createHash } from 'node:crypto'
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const folder = mkdtempSync(join(tmpdir(), 'paper-'))
const readers = ['client', 'fitter', 'buyer', 'inspector', 'all']
const counts = { passed: 0, failed: 0 }

function check(name, holds, more = '') {
    counts[holds ? 'passed' : 'failed']++
    if (!holds) console.log(`${name}${more ? `: ${more}` : ''}`)
}

function run(command, args, options = {}) {
    const env = { PATH: process.env.PATH, LANG: 'C.UTF-8', HOME: folder }
    const result = spawnSync(command, args, { cwd: folder, maxBuffer: 1 << 28, env, ...options })
    if (result.error) throw result.error
    return { status: result.status, out: result.stdout.toString(), err: result.stderr.toString() }
}

const dripstone = (args, options) => run(program, args, options)
const squeezed = (text) => text.replace(/[\s\u00AD]+/g, '')

/* --- jobs ------------------------------------------------------------------------------------------------------ */

const mill = JSON.parse(readFileSync(join(root, 'examples/mill-house.json'), 'utf8'))

const oddNames = [
    'شريط ضوئي بجانب الباب', 'שקע כפול ליד הדלת', 'Розетка у двери', 'Πρίζα δίπλα στην πόρτα', 'tab\there, line\nhere, bell\u0007',
    'turned \u202Eround', '<b>&amp;</b> (brackets) \\ slash', 'W'.repeat(3000), '',
    'A long name that somebody wrote down on site with all that came to mind: left of the window, behind the bench, under the '
    + 'shelf with the glazes, where the old water pipe used to run before it was taken out'
]

function write(name, job) {
    const path = join(folder, `${name}.json`)
    writeFileSync(path, JSON.stringify(job))
    return path
}

// The mill house again and again, each time in places of its own.
function manyPoints(wanted) {
    const job = { ...mill, title: `${wanted} points`, places: [], points: [] }
    for (let copy = 0; job.points.length < wanted; copy++) {
        job.places.push(...mill.places.map((place) => ({ ...place, id: `${place.id}${copy}` })))
        job.points.push(...mill.points.map((point) => ({ ...point, id: `${point.id}.${copy}`, place: `${point.place}${copy}` })))
    }
    job.points.length = wanted
    return job
}

const oddJob = () => ({
    ...mill,
    title: 'שם: a title of a job that is so long that it cannot possibly stand in one line at the head of a page, whatever its size',
    points: oddNames.map((name, index) => ({ ...mill.points[index], name }))
})

const examples = ['mill-house', 'pottery', 'fish-farm', 'bath-house'].map((name) => join(root, `examples/${name}.json`))
const jobs = [
    ...examples,
    join(root, 'tests/cases/check-boxes/job.json'),
    join(root, 'tests/cases/check-box-heat/job.json'),
    write('none', { ...mill, title: undefined, date: undefined, places: [], points: [] }),
    write('one', { ...mill, points: mill.points.slice(0, 1) }),
    write('twenty', { ...mill, points: mill.points.slice(0, 20) }),
    write('odd', oddJob())
]
const nameOf = (job) => (job.includes('/cases/') ? basename(job.replace('/job.json', '')) : basename(job, '.json'))

/* --- one paper ------------------------------------------------------------------------------------------------- */

function makePaper(job, reader, more = []) {
    const pdf = join(folder, `${nameOf(job)}-${reader}${more.join('')}.pdf`)
    const result = dripstone(['paper', job, '--for', reader, '-o', pdf, '--force', ...more])
    check(`${nameOf(job)} ${reader}: written`, result.status === 0 && result.err === '', `status ${result.status} ${result.err}`)
    return pdf
}

function checkFile(name, pdf) {
    const checked = run('qpdf', ['--check', pdf])
    check(`${name}: qpdf finds no fault`, checked.status === 0 && !/WARNING|ERROR/.test(checked.out + checked.err), checked.err.slice(0, 300))
    const fonts = run('pdffonts', [pdf]).out.trimEnd().split('\n').slice(2)
    check(`${name}: every font is embedded and has a Unicode map`, fonts.length > 0 && fonts.every((row) => /\s(yes)\s+(yes|no)\s+(yes)\s+\d+\s+\d+$/.test(row)), fonts.join('\n'))
    const info = run('pdfinfo', [pdf])
    check(`${name}: tagged, with a title`, /^Tagged:\s+yes$/m.test(info.out) && /^Title:\s+\S/m.test(info.out), info.out)
    const catalog = run('qpdf', ['--qdf', '--object-streams=disable', pdf, '-']).out
    check(`${name}: has a language`, catalog.includes('/Lang (en-GB)'))
    const tree = run('pdfinfo', ['-struct', pdf])
    check(`${name}: one Document above all tags`, tree.out.startsWith('Document') && !/^\S/m.test(tree.out.replace(/^Document.*\n/, '')) && tree.err === '', tree.err.slice(0, 200))
}

// Text of each page.
const pagesOf = (pdf) => run('pdftotext', ['-layout', pdf, '-']).out.split('\f').slice(0, -1)

// A sentence may go on overleaf.
const withoutFurniture = (page) => page.split('\n').filter((line) => line.trim()).slice(1, -1).join('\n')

function checkFurniture(name, pages, findings) {
    const faults = pages.flatMap((page, index) => {
        const text = squeezed(page)
        const wanted = [`page${index + 1}of${pages.length}`, squeezed(findings.program), squeezed(findings.date ?? 'undated'),
            ...findings.packs.map((pack) => squeezed(pack.edition))]
        return wanted.filter((each) => !text.includes(each)).map((each) => `page ${index + 1}: no ${each}`)
    })
    check(`${name}: page n of m, program, edition and date on every page`, faults.length === 0, faults.slice(0, 5).join('; '))
    const empty = pages.findIndex((page) => page.trim().split('\n').filter((line) => line.trim()).length < 4)
    check(`${name}: no empty page`, empty < 0, `page ${empty + 1}`)
}

/* Words with their boxes, page by page; a box is as high as the face, so letters take the middle of it. */
function wordsOf(pdf) {
    const text = run('pdftotext', ['-bbox', pdf, '-']).out
    return text.split('<page ').slice(1).map((page) => {
        const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(page)
        const words = [...page.matchAll(/<word xMin="(-?[\d.]+)" yMin="(-?[\d.]+)" xMax="(-?[\d.]+)" yMax="(-?[\d.]+)">(.*?)<\/word>/g)]
            .map(([, left, top, right, bottom, word]) => ({ left: +left, top: +top, right: +right, bottom: +bottom, word }))
        return { width: +width, height: +height, words }
    })
}

const overlap = (a, b) => {
    const across = Math.min(a.right, b.right) - Math.max(a.left, b.left)
    const inset = (word) => (word.bottom - word.top) * 0.25
    const down = Math.min(a.bottom - inset(a), b.bottom - inset(b)) - Math.max(a.top + inset(a), b.top + inset(b))
    return across > 1 && down > 1
}

function checkPlaces(name, pdf, isDrawing) {
    const faults = wordsOf(pdf).flatMap(({ width, height, words }, index) => {
        if (isDrawing(index)) return []
        const out = words.filter((w) => w.left < 20 || w.top < 10 || w.right > width - 20 || w.bottom > height - 10)
        const rows = [...words].sort((a, b) => a.top - b.top)
        const over = rows.flatMap((a, i) => {
            const found = []
            for (let j = i + 1; j < rows.length && rows[j].top < a.bottom; j++) if (overlap(a, rows[j])) found.push(`"${a.word}" and "${rows[j].word}"`)
            return found
        })
        return [...out.map((w) => `page ${index + 1}: "${w.word}" lies outside`), ...over.map((each) => `page ${index + 1}: ${each} lie on each other`)]
    })
    check(`${name}: no word lies on another or outside`, faults.length === 0, faults.slice(0, 5).join('; '))
}

/* --- what each reader must find -------------------------------------------------------------------------------- */

const findingsOf = (job) => JSON.parse(dripstone(['check', job, '--json']).out)

function missing(text, wanted) {
    return wanted.filter((each) => each && !text.includes(squeezed(each)))
}

// Names may be turned or cut; ids, sentences, rules and sources may not.
function checkAll(name, text, findings) {
    const points = missing(text, findings.points.flatMap((point) => [point.id, point.deciding, point.remedy]))
    check(`${name}: every point with its sentence and remedy`, points.length === 0, points.slice(0, 3).join(' | '))
    const reasons = findings.points.flatMap((point) => [...point.reasons, ...point.open])
    const wanted = reasons.flatMap((reason) => [reason.because, reason.rule, reason.clause, reason.edition, reason.source.ref])
    const lost = missing(text, [...new Set(wanted)])
    check(`${name}: every reason with rule, clause, edition and source`, lost.length === 0, lost.slice(0, 3).join(' | '))
    const asked = missing(text, findings.questions.map((question) => question.question))
    check(`${name}: every question`, asked.length === 0, asked.slice(0, 3).join(' | '))
}

function checkClient(name, pages, findings) {
    const text = pages.join('\n')
    const isId = (word) => findings.points.some((point) => point.id === word)
    const letters = text.match(/\b(A[A-HK-NPQRS]|B[A-E]|C[AB])[1-9]\b/g)?.find((word) => !isId(word))
    check(`${name}: no letters of classes`, !letters, letters)
    const keys = /\b(zone_stated|maker\.[a-z]|box\.[a-z]|\w+_m\b|seen or absent)/.exec(text)
    check(`${name}: no keys of the document`, !keys, keys?.[0])
    const worst = findings.points.find((point) => ['barred', 'short'].includes(point.verdict))
    check(`${name}: what must change stands on the first page`, !worst || squeezed(pages[0]).includes(squeezed(worst.verdict)))
    const ids = missing(squeezed(text), findings.points.map((point) => point.id))
    check(`${name}: every point`, ids.length === 0, ids.join(' '))
}

function checkBuyer(name, pages, findings) {
    const rows = pages.join('\n').split('\n').map((row) => /^\s*(\d+)\s{2,}[a-z]/.exec(row)).filter(Boolean)
    const pieces = rows.reduce((sum, row) => sum + Number(row[1]), 0)
    const wanted = findings.points.reduce((sum, point) => sum + point.count, 0)
    check(`${name}: all ${wanted} pieces`, pieces === wanted, `found ${pieces}`)
}

function checkInspector(name, pages, findings) {
    const first = squeezed(pages[0])
    check(`${name}: head of the list and a point on the first page`, ['evidence', 'foundbefore', 'initials', 'inspectedby'].every((each) => first.includes(each))
        && first.includes(squeezed(findings.points[0].id)))
    check(`${name}: nothing is ticked beforehand`, !/[✓✔☑☒✗✘]/.test(pages.join('')))
}

// Head of the columns on every page of the schedule.
function checkSchedule(name, pages) {
    const first = pages.findIndex((page) => /^\s*Schedule$/m.test(page) && /installed/.test(page))
    const end = pages.findIndex((page, index) => index > first && /^\s*For the client$/m.test(page))
    const bare = pages.slice(first, end).findIndex((page) => !/point\s+name\s+needed\s+marked\s+installed\s+verdict/.test(page))
    check(`${name}: the head of the schedule stands on each of its pages`, first > 0 && end > first && bare < 0, `page ${first + bare + 1}`)
}

function checkPaper(job, reader, findings, more) {
    const name = [nameOf(job), reader, ...(more ?? [])].join(' ')
    const pdf = makePaper(job, reader, more)
    const pages = pagesOf(pdf)
    checkFile(name, pdf)
    checkFurniture(name, pages, findings)
    checkPlaces(name, pdf, (index) => /Working aid, no certificate/.test(pages[index]))
    if (reader === 'all' && findings.points.length) {
        checkAll(name, squeezed(pages.map(withoutFurniture).join('\n')), findings)
        checkSchedule(name, pages)
    }
    if (reader === 'client') checkClient(name, pages, findings)
    if (reader === 'buyer') checkBuyer(name, pages, findings)
    if (reader === 'inspector' && findings.points.length) checkInspector(name, pages, findings)
    return pdf
}

/* --- large, and the same again --------------------------------------------------------------------------------- */

function checkLarge() {
    const job = write('many', manyPoints(2000))
    const started = process.hrtime.bigint()
    const pdf = makePaper(job, 'inspector')
    const seconds = Number(process.hrtime.bigint() - started) / 1e9
    checkFile('2,000 points inspector', pdf)
    const pages = pagesOf(pdf)
    const text = squeezed(pages.join('\n'))
    const findings = findingsOf(job)
    const lost = missing(text, findings.points.flatMap((point) => [point.id, point.deciding]))
    check('2,000 points inspector: every point with its sentence', lost.length === 0, lost.slice(0, 3).join(' | '))
    checkFurniture('2,000 points inspector', pages, findings)
    const bytes = readFileSync(pdf).length
    check('2,000 points inspector: under 2 MB', bytes < 2e6, `${bytes} bytes`)
    console.log(`2,000 points, inspector: ${seconds.toFixed(2)} s, ${bytes} bytes, ${pages.length} pages`)
}

// So many points are listed once, and the cover says where the other lists are.
function checkLargeWithAll() {
    const job = write('many', manyPoints(2000))
    const pdf = makePaper(job, 'all')
    checkFile('2,000 points all', pdf)
    const pages = pagesOf(pdf)
    const text = squeezed(pages.map(withoutFurniture).join('\n'))
    check('2,000 points all: the cover says that they are listed once', squeezed(pages[0]).includes(squeezed('listed once, in the schedule')))
    check('2,000 points all: no list for the fitter', !pages.some((page) => /^\s*For the fitter$/m.test(page)))
    const lost = missing(text, findingsOf(job).points.flatMap((point) => [point.id, point.deciding, point.remedy]))
    check('2,000 points all: every point with its sentence and remedy', lost.length === 0, lost.slice(0, 3).join(' | '))
    const bytes = readFileSync(pdf).length
    check('2,000 points all: under 2.5 MB, with names longer than usual', bytes < 2.5e6, `${bytes} bytes`)
}

function checkSame() {
    for (const reader of readers) {
        const first = readFileSync(makePaper(examples[3], reader))
        const again = readFileSync(makePaper(examples[3], reader))
        check(`bath-house ${reader}: the same bytes again`, first.equals(again))
    }
}

/* --- plans ------------------------------------------------------------------------------------------------------ */

// The scale is true: a plan keeps its own page, A4 in a Letter paper too, and says the same as the drawing itself.
function checkPlans() {
    const pdf = makePaper(examples[3], 'fitter', ['--size', 'letter'])
    const sizes = run('pdfinfo', ['-f', '1', '-l', '99', pdf]).out
    const pages = pagesOf(pdf)
    const drawn = pages.map((page, index) => index).filter((index) => /scale 1:\d+/.test(pages[index]))
    const a4 = drawn.filter((index) => new RegExp(`Page\\s+${index + 1} size:\\s+595\\.\\d+ x 841\\.\\d+`).test(sizes))
    check('plans: one for each place with zones', drawn.length === 6, `${drawn.length}`)
    check('plans: on A4 in a Letter paper', drawn.length > 0 && a4.length === drawn.length, sizes.slice(0, 900))
    check('plans: other pages are Letter', /Page\s+1 size:\s+612 x 792/.test(sizes), sizes.slice(0, 300))
    const svg = dripstone(['draw', examples[3], '--place', 'wet']).out
    const words = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((match) => match[1].replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&amp;', '&'))
    const text = squeezed(pages[drawn[0]])
    const lost = words.filter((word) => !text.includes(squeezed(word)) && ![...squeezed(word)].every((c) => text.includes(c)))
    check('plans: every text of the drawing', words.length > 20 && lost.length === 0, lost.join(' | '))
}

/* --- labels ----------------------------------------------------------------------------------------------------- */

const perMm = 300 / 25.4

function readCode(pdf, page, x, y, width, height) {
    const place = ['-x', x, '-y', y, '-W', width, '-H', height].map((part) => (typeof part === 'number' ? String(Math.round(part * perMm)) : part))
    run('pdftoppm', ['-r', '300', '-f', String(page), '-l', String(page), ...place, '-png', '-singlefile', pdf, 'label'])
    return run('zbarimg', ['-q', '--raw', 'label.png']).out.trim()
}

function checkLabels(job, columns, rows, width, height, gap) {
    const findings = findingsOf(job)
    const pdf = join(folder, 'labels.pdf')
    const name = `labels ${columns}x${rows} of ${width}x${height}`
    const result = dripstone(['labels', job, '-o', pdf, '--force', '--grid', `${columns}x${rows}`, '--label', `${width}x${height}`])
    check(`${name}: written`, result.status === 0, result.err)
    const hash = createHash('sha256').update(readFileSync(job)).digest('hex').slice(0, 16)
    const pieces = findings.points.flatMap((point) => Array(point.count).fill(point))
    const [gapX, gapY] = gap
    const left = (210 - columns * width - (columns - 1) * gapX) / 2
    const top = (297 - rows * height - (rows - 1) * gapY) / 2
    const wrong = pieces.slice(0, columns * rows).filter((point, index) => {
        const x = left + (index % columns) * (width + gapX)
        const y = top + Math.floor(index / columns) * (height + gapY)
        return readCode(pdf, 1, x, y, width, height) !== `dripstone ${point.id} ${hash}`
    })
    check(`${name}: every code reads back as point and job`, wrong.length === 0, wrong.map((point) => point.id).join(' '))
    const pages = Number(/^Pages:\s+(\d+)/m.exec(run('pdfinfo', [pdf]).out)[1])
    check(`${name}: one label a piece`, pages === Math.ceil(pieces.length / (columns * rows)), `${pages} sheets`)
    const text = run('pdftotext', [pdf, '-']).out
    check(`${name}: do not drill`, text.split('Do not drill').length - 1 === pieces.length)
    checkFile(name, pdf)
}

/* --- what changed ----------------------------------------------------------------------------------------------- */

// Everything that the JSON of the differences says of a point stands in the paper, and the answer on its first page.
function checkChanges(name, words, after, exit) {
    const pdf = join(folder, `${name}-changes.pdf`)
    const made = dripstone(['differ', ...words, '-o', pdf, '--force'])
    check(`changes ${name}: written`, made.status === exit && made.err === '', `status ${made.status} ${made.err}`)
    const differ = JSON.parse(dripstone(['differ', ...words, '--json']).out)
    const pages = pagesOf(pdf)
    checkFile(`changes ${name}`, pdf)
    checkFurniture(`changes ${name}`, pages, { ...findingsOf(after), packs: differ.after.packs })
    checkPlaces(`changes ${name}`, pdf, () => false)
    const lost = missing(squeezed(pages[0]), [differ.summary, ...differ.before.packs.map((pack) => pack.edition)])
    check(`changes ${name}: the answer and both editions on the first page`, lost.length === 0, lost.join(' | '))
    // Turned names come back turned; that the rules are others goes without saying where each of them is named.
    const causes = (point) => point.why.filter((why) => !/[\u0590-\u06ff\u202e]/.test(why) && !(why.startsWith('The rules are') && point.came.length + point.went.length))
    const told = differ.points.flatMap((point) => [point.id, ...causes(point),
        ...[...point.came, ...point.went].flatMap((reason) => [reason.because, reason.rule, reason.clause, reason.edition])])
    const untold = missing(squeezed(pages.map(withoutFurniture).join('\n')), told)
    check(`changes ${name}: every point, cause and reason`, differ.points.length > 0 && untold.length === 0, untold.slice(0, 3).join(' | '))
    const again = join(folder, 'again.pdf')
    dripstone(['differ', ...words, '-o', again, '--force'])
    check(`changes ${name}: the same bytes again`, readFileSync(pdf).equals(readFileSync(again)))
}

// The mill house, half of it marked otherwise, some points gone and some new.
function changedMill() {
    const points = mill.points.slice(3).map((point, index) => (index % 2 ? point : { ...point, marked: [{ ip: 'IP20' }] }))
    return write('changed', { ...mill, points: [...points, ...mill.points.slice(0, 3).map((point) => ({ ...point, id: `${point.id}new` }))] })
}

function checkAllChanges() {
    const use = (file) => join(root, `tests/cases/differ-use/${file}.json`)
    checkChanges('use', [use('before'), use('after')], use('after'), 1)
    checkChanges('editions', [examples[0], '--before', 'gb-2018', '--after', 'gb-2022'], examples[0], 1)
    const changed = changedMill()
    checkChanges('half', [examples[0], changed], changed, 1)
    checkChanges('odd', [examples[0], join(folder, 'odd.json')], join(folder, 'odd.json'), 1)
    const same = join(folder, 'same.pdf')
    const made = dripstone(['differ', examples[0], examples[0], '-o', same])
    check('changes none: status 0 and said', made.status === 0 && /No verdict and no need has changed/.test(pagesOf(same)[0]), made.err)
}

/* --- what goes wrong -------------------------------------------------------------------------------------------- */

function checkRefused(name, args, says, options) {
    const result = dripstone(args, options)
    check(`${name}: status 2 and said why`, result.status === 2 && result.err.includes(says), `status ${result.status}: ${result.err}`)
}

function checkFaults() {
    const old = join(folder, 'old.pdf')
    const before = () => readdirSync(folder).length
    writeFileSync(old, 'what was there')
    const kept = (name, files) => check(`${name}: the old file is untouched and nothing is left beside it`, readFileSync(old, 'utf8') === 'what was there' && before() === files)
    let files = before()
    checkRefused('existing file', ['paper', examples[0], '-o', old], '--force')
    kept('existing file', files)
    checkRefused('no such folder', ['paper', examples[0], '-o', join(folder, 'no/such.pdf')], 'directory does not exist')
    checkRefused('no such reader', ['paper', examples[0], '--for', 'fiter', '-o', old], 'fitter')
    checkRefused('no such size', ['paper', examples[0], '--size', 'a5', '-o', old], 'a4 or letter')
    checkRefused('no output named', ['paper', examples[0]], '-o')
    checkRefused('no such job', ['paper', join(folder, 'none-such.json'), '-o', old, '--force'], 'no such file')
    checkRefused('labels too large', ['labels', examples[0], '--grid', '4x8', '--label', '70x37', '-o', old, '--force'], 'do not fit')
    checkRefused('labels too small', ['labels', examples[0], '--label', '20x10', '-o', old, '--force'], 'at least 45 mm')
    checkRefused('labels in no numbers', ['labels', examples[0], '--label', '70by37', '-o', old, '--force'], 'two numbers')
    checkRefused('labels, none on a sheet', ['labels', examples[0], '--grid', '0x8', '-o', old, '--force'], '1 to 50')
    checkRefused('changes as JSON and PDF', ['differ', examples[0], examples[1], '--json', '-o', old, '--force'], 'one of them')
    checkRefused('changes over an existing file', ['differ', examples[0], examples[1], '-o', old], '--force')
    kept('refused', files)
    const limited = run('bash', ['-c', 'trap "" XFSZ; ulimit -f 8; exec "$0" paper "$1" -o "$2" --force', program, examples[0], old])
    check('no room on the disk: status 2 and said why', limited.status === 2 && limited.err.includes('cannot write'), `${limited.status} ${limited.err}`)
    kept('no room on the disk', files)
    const full = run('bash', ['-c', '"$0" paper "$1" -o - > /dev/full', program, examples[0]])
    check('full device behind a pipe: status 2', full.status === 2 && full.err.includes('could not be written'), `${full.status} ${full.err}`)
    files = before()
    const forced = dripstone(['paper', examples[0], '-o', old, '--force'])
    check('--force replaces', forced.status === 0 && readFileSync(old).subarray(0, 5).toString() === '%PDF-' && before() === files)
}

/* --- all -------------------------------------------------------------------------------------------------------- */

for (const job of jobs) {
    const findings = findingsOf(job)
    for (const reader of readers) checkPaper(job, reader, findings)
}
checkPaper(examples[0], 'all', findingsOf(examples[0]), ['--size', 'letter'])
checkLarge()
checkLargeWithAll()
checkSame()
checkPlans()
checkLabels(examples[1], 3, 8, 70, 37, [0, 0.1111])
checkLabels(examples[1], 2, 7, 99.1, 38.1, [3, 3])
checkLabels(examples[1], 4, 12, 45.7, 21.2, [3, 3])
checkAllChanges()
checkFaults()
if (process.argv.includes('--keep') && existsSync(folder)) console.log(`kept in ${folder}`)
else rmSync(folder, { recursive: true, force: true })
console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed > 0 || counts.passed === 0 ? 1 : 0
