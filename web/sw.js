// SPDX-License-Identifier: MIT
//
// Keeps the page's own files, so that it opens without a signal. Jobs are not its business: they are on the shelf.
// A new version waits until no page of the old one is open, so no page ever runs on files of two versions.

// KEPT and VERSION are put in by the build.
const name = `dripstone-${VERSION}`

self.addEventListener('install', (event) => {
    event.waitUntil(caches.open(name).then((cache) => cache.addAll(['./', ...KEPT])))
})

self.addEventListener('activate', (event) => {
    event.waitUntil(caches.keys().then((names) => Promise.all(names.filter((each) => each !== name).map((each) => caches.delete(each)))))
})

self.addEventListener('fetch', (event) => {
    const { pathname } = new URL(event.request.url)
    if (event.request.method !== 'GET' || pathname.startsWith('/api/')) return
    event.respondWith(caches.open(name).then(async (cache) => (await cache.match(event.request, { ignoreSearch: true })) ?? fetch(event.request)))
})
