// Keeps the page for days without signal. Written by `cargo xtask finish-dist`, which puts in the files of this build.
//
// A page is served whole from one build: everything comes from the store of the worker that controls it, so that files of
// two builds never mix. A newer build is fetched beside it and takes over when the reader says so, or when no page is open.
const BUILD = 'BUILD_ID';
const STORE = `holdwater-${BUILD}`;
const FILES = FILE_LIST;

self.addEventListener('install', (event) => {
  // A name with a hash means one file for ever. The others are fetched past the browser's own store, which may hold those of the build before.
  const fresh = FILES.map((file) => new Request(file, { cache: /-[0-9a-f]{16}/.test(file) ? 'default' : 'reload' }));
  event.waitUntil(caches.open(STORE).then((store) => store.addAll(fresh)));
});

self.addEventListener('activate', (event) => {
  const tidy = async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith('holdwater-') && name !== STORE) await caches.delete(name);
    }
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin) return;
  event.respondWith(answer(event.request, url));
});

async function answer(request, url) {
  const store = await caches.open(STORE);
  const found = request.mode === 'navigate'
    ? await store.match('./')
    : await store.match(url.origin + url.pathname);
  return found ?? fetch(request);
}
