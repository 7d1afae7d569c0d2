// SPDX-License-Identifier: MIT
//
// A value that parts of the page watch. set() replaces it whole or merges an object; watchers are told once a turn.

import { useEffect, useState } from '../html.js'

export function makeStore(start) {
    let value = start
    const watchers = new Set()
    return {
        get: () => value,
        set(change) {
            const next = typeof change === 'function' ? change(value) : { ...value, ...change }
            if (next === value) return
            value = next
            watchers.forEach((watcher) => watcher())
        },
        watch(watcher) {
            watchers.add(watcher)
            return () => watchers.delete(watcher)
        }
    }
}

// What a component reads of a store: it is drawn again when choose(value) gives something else.
export function useStore(store, choose = (value) => value) {
    const [, redraw] = useState(0)
    const chosen = choose(store.get())
    useEffect(() => {
        let last = chosen
        const look = () => {
            const now = choose(store.get())
            if (now !== last) {
                last = now
                redraw((count) => count + 1)
            }
        }
        look()
        return store.watch(look)
    })
    return chosen
}
