// SPDX-License-Identifier: MIT
//
// node web/build.mjs OUT [MODULE]: puts the finished page into the folder OUT, flat: what the program embeds and serves,
// and dripstone.html, the same page in one file. MODULE is the WebAssembly module, build/wasm/dripstone.wasm without.

import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { build } from 'esbuild'
import { packed } from './pack-rules.mjs'

const web = dirname(fileURLToPath(import.meta.url))
const [out, module = join(web, '../build/wasm/dripstone.wasm')] = process.argv.slice(2)
if (!out) throw new Error('which folder? node web/build.mjs OUT [MODULE]')

const common = { bundle: true, minify: true, target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'warning', absWorkingDir: web }
const fonts = { 'atkinson-400.woff2': 'latin-400-normal', 'atkinson-700.woff2': 'latin-700-normal' }
const fontFile = (face) => join(web, `node_modules/@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-${face}.woff2`)

// Every style beside its component; base first.
function styles() {
    const inFolder = (folder) => readdirSync(join(web, folder)).filter((name) => name.endsWith('.css')).sort().map((name) => join(folder, name))
    const files = ['style/base.css', ...inFolder('parts'), ...inFolder('views')]
    return files.map((name) => readFileSync(join(web, name), 'utf8')).join('\n')
}

// Words go in as texts, without the blanks that make them readable here; rule packs together, in the program's order.
const PACKS = ['iec', 'gb-2022', 'gb-2018', 'de', 'fr', 'au']
const packs = () => JSON.stringify(packed(PACKS.map((name) => JSON.parse(readFileSync(join(web, `../rules/${name}.json`), 'utf8')))))
const packedJson = {
    name: 'packed-json',
    setup: ({ onLoad, onResolve }) => {
        onResolve({ filter: /^rules:packs$/ }, ({ path }) => ({ path, namespace: 'rules' }))
        onLoad({ filter: /.*/, namespace: 'rules' }, () => ({ contents: packs(), loader: 'text' }))
        onLoad({ filter: /\.json$/ }, ({ path }) => ({ contents: JSON.stringify(JSON.parse(readFileSync(path, 'utf8'))), loader: 'text' }))
    }
}

async function script(entry, format, define = {}) {
    const { outputFiles } = await build({ ...common, entryPoints: [entry], format, write: false, plugins: [packedJson], define })
    return outputFiles[0].text
}

async function style() {
    const { outputFiles } = await build({ ...common, stdin: { contents: styles(), loader: 'css', resolveDir: web }, external: ['*.woff2'], write: false })
    return outputFiles[0].text
}

const base64 = (bytes) => Buffer.from(bytes).toString('base64')
const dataAddress = (type, bytes) => `data:${type};base64,${base64(bytes)}`

// "</script" inside a script would end it.
const scriptSafe = (text) => text.replaceAll('</script', '<\\/script')

function oneFile(parts) {
    let css = parts['app.css']
    for (const name of Object.keys(fonts)) css = css.replaceAll(name, dataAddress('font/woff2', parts[name]))
    const part = (id, text) => `<script type="text/plain" id="${id}">${text}</script>`
    return parts['index.html']
        .replace(/<link rel="manifest"[^>]*>\n/, '')
        .replace('href="icon.svg"', `href="${dataAddress('image/svg+xml', parts['icon.svg'])}"`)
        .replace('<link rel="stylesheet" href="app.css">', () => `<style>${css}</style>`)
        .replace('<script type="module" src="app.js"></script>', () => [
            part('part-module', base64(gzipSync(parts['dripstone.wasm'], { level: 9 }))),
            part('part-worker', scriptSafe(parts['worker.js'])),
            `<script type="module">${scriptSafe(parts['app.js'])}</script>`
        ].join('\n'))
}

const read = (name) => readFileSync(join(web, name), 'utf8')
const parts = {
    'index.html': read('index.html'),
    'icon.svg': read('icon.svg'),
    'manifest.webmanifest': read('manifest.webmanifest'),
    'app.js': await script('app.js', 'esm'),
    'worker.js': await script('core/worker.js', 'iife'),
    'app.css': await style(),
    'dripstone.wasm': readFileSync(module)
}
for (const [name, face] of Object.entries(fonts)) parts[name] = readFileSync(fontFile(face))

// The service worker keeps exactly these, under a name that changes with any of them.
const kept = Object.keys(parts)
const version = createHash('sha256').update(kept.map((name) => createHash('sha256').update(parts[name]).digest('hex')).join()).digest('hex').slice(0, 16)
parts['sw.js'] = await script('sw.js', 'iife', { KEPT: JSON.stringify(kept), VERSION: JSON.stringify(version) })
parts['dripstone.html'] = oneFile(parts)

rmSync(out, { recursive: true, force: true })
mkdirSync(out, { recursive: true })
for (const [name, content] of Object.entries(parts)) writeFileSync(join(out, name), content)
const sizes = ['index.html', 'app.js', 'worker.js', 'app.css', 'dripstone.wasm', ...Object.keys(fonts)].map((name) => gzipSync(parts[name], { level: 9 }).length)
console.log(`page: ${Object.keys(parts).length} files, first view ${Math.round(sizes.reduce((sum, each) => sum + each) / 1000)} kB packed, one file ${Math.round(parts['dripstone.html'].length / 1000)} kB`)
