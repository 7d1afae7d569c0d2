// SPDX-License-Identifier: MIT
//
// How the points of the open job are listed: what is filtered, sorted, chosen, and where the reader is. It outlives the
// view, so that whoever comes back from a point finds the list as it was, and "next point" follows the list.
//
//     const list = useListing(job)        { ...look of state/lines.js, chosen, at, scroll }
//     setListing({ text: 'hose' })

import { startLook } from './lines.js'
import { makeStore, useStore } from './store.js'

const start = (job) => ({ ...startLook, job, chosen: new Set(), at: null, scroll: 0 })

const listing = makeStore(start(null))

export const setListing = (change) => listing.set(change)

// Another job begins with the plain list.
export function listingOf(job) {
    if (listing.get().job !== job) listing.set(() => start(job))
    return listing.get()
}

export function useListing(job) {
    listingOf(job)
    return useStore(listing)
}

// A set with the member put in or taken out.
export function toggled(set, member) {
    const next = new Set(set)
    if (!next.delete(member)) next.add(member)
    return next
}
