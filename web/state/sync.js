// SPDX-License-Identifier: MIT
//
// Jobs between this device and the server that the page came from. (Being built.)

import { makeStore } from './store.js'

// state: 'off' no server; 'sent', 'sending', 'away' (the server does not answer), 'conflict'
export const syncing = makeStore({ state: 'off', conflicts: new Map() })

export function startSync() {}
