// SPDX-License-Identifier: MIT
//
// Where the reader is, in the part of the address behind #, so that the one-file page has addresses too.
//
//     #/                                 the jobs
//     #/job/ID                           points of a job
//     #/job/ID/place/PLACE               survey of a place         …/plan  its plan
//     #/job/ID/point/POINT               a point                   …/box   its box
//     #/job/ID/questions                 what to ask
//     #/job/ID/print                     what is printed
//     #/job/ID/import                    from a spreadsheet
//     #/job/ID/versions                  versions that the server keeps
//     #/job/ID/conflict                  what cannot be merged
//     #/instead?need=IP55&mark=IP67      will this do instead?

import { makeStore } from './store.js'

const PATTERN = [
    ['jobs', /^\/?$/],
    ['instead', /^\/instead$/],
    ['job', /^\/job\/([^/]+)$/],
    ['plan', /^\/job\/([^/]+)\/place\/([^/]+)\/plan$/],
    ['place', /^\/job\/([^/]+)\/place\/([^/]+)$/],
    ['box', /^\/job\/([^/]+)\/point\/([^/]+)\/box$/],
    ['point', /^\/job\/([^/]+)\/point\/([^/]+)$/],
    ['questions', /^\/job\/([^/]+)\/questions$/],
    ['print', /^\/job\/([^/]+)\/print$/],
    ['import', /^\/job\/([^/]+)\/import$/],
    ['versions', /^\/job\/([^/]+)\/versions$/],
    ['conflict', /^\/job\/([^/]+)\/conflict$/]
]

export function routeOf(hash) {
    const [path, query] = hash.replace(/^#/, '').split('?')
    for (const [view, pattern] of PATTERN) {
        const found = pattern.exec(path)
        if (found) return { view, job: found[1] && decodeURIComponent(found[1]), id: found[2] && decodeURIComponent(found[2]), query }
    }
    return { view: 'jobs' }
}

export const route = makeStore(routeOf(location.hash))

addEventListener('hashchange', () => route.set(() => routeOf(location.hash)))

export const addressOf = (job, ...rest) => `#/job/${[job, ...rest].map(encodeURIComponent).join('/')}`

export const go = (address) => {
    location.hash = address
}
