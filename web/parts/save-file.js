// SPDX-License-Identifier: MIT
//
// A file that the browser keeps for the person: saveFile('Mill house, fitter.pdf', blob).

export function saveFile(name, blob) {
    const address = URL.createObjectURL(blob)
    Object.assign(document.createElement('a'), { href: address, download: name }).click()
    setTimeout(() => URL.revokeObjectURL(address), 10000)
}

// A title as the beginning of a file's name.
export const fileNameOf = (title) => (title || 'job').replace(/[^\p{L}\p{N} _-]+/gu, '').trim().slice(0, 80) || 'job'
