// SPDX-License-Identifier: MIT
//
// Where the page's own parts come from: beside it when it is served, inside it when it is one file.

const inside = (id) => document.getElementById(id)?.textContent.trim()

export const isOneFile = () => inside('part-module') !== undefined

async function unpacked(base64) {
    const packed = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0))
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))
    return new Uint8Array(await new Response(stream).arrayBuffer())
}

export async function moduleBytes() {
    const own = inside('part-module')
    if (own !== undefined) return unpacked(own)
    const answer = await fetch('dripstone.wasm')
    if (!answer.ok) throw new Error(`the core could not be loaded (${answer.status})`)
    return new Uint8Array(await answer.arrayBuffer())
}

export function newWorker() {
    const own = inside('part-worker')
    if (own === undefined) return new Worker('worker.js')
    return new Worker(URL.createObjectURL(new Blob([own], { type: 'text/javascript' })))
}
