/**
 * The service worker of the scale page: keeps the page and what it is drawn with, so that it opens with no signal. It
 * never keeps or answers anything of /api: entries are queued by the page itself.
 */

const WORKER = `
const KEPT = 'huskledger-scale-1';
const PAGE = '/scale';

self.addEventListener('install', (event) => event.waitUntil(keepPage().then(() => self.skipWaiting())));
self.addEventListener('activate', (event) => event.waitUntil(forgetOthers().then(() => self.clients.claim())));

async function forgetOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== KEPT).map((name) => caches.delete(name)));
}

// The page with every script and style that it names.
async function keepPage() {
  const kept = await caches.open(KEPT);
  const answer = await fetch(PAGE, { credentials: 'same-origin' });
  if (!answer.ok || answer.redirected) return;
  const text = await answer.clone().text();
  await kept.put(PAGE, answer);
  const parts = [...new Set(text.match(/\\/_next\\/static\\/[^"'\\\\\\s)]+/g) ?? [])];
  await Promise.all(parts.map((part) => keepPart(kept, part)));
}

async function keepPart(kept, part) {
  if (await kept.match(part)) return;
  const answer = await fetch(part).catch(() => undefined);
  if (!answer?.ok) return;
  const text = /\\.css/.test(part) ? await answer.clone().text() : '';
  await kept.put(part, answer);
  const inner = [...text.matchAll(/url\\(([^)]+\\.woff2)\\)/g)].map(([, url]) => new URL(url.replace(/["']/g, ''), new URL(part, location.origin)).pathname);
  await Promise.all(inner.map((url) => keepPart(kept, url)));
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin) return;
  if (request.mode === 'navigate' && url.pathname === PAGE) event.respondWith(pageOrKept(request));
  else if (url.pathname.startsWith('/_next/static/')) event.respondWith(keptOrFetched(request));
});

async function pageOrKept(request) {
  try {
    const answer = await fetch(request);
    if (answer.ok && !answer.redirected) {
      const kept = await caches.open(KEPT);
      await kept.put(PAGE, answer.clone());
      void keepPage();
    }
    return answer;
  } catch (error) {
    const answer = await caches.match(PAGE);
    if (answer) return answer;
    throw error;
  }
}

async function keptOrFetched(request) {
  const kept = await caches.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) {
    const cache = await caches.open(KEPT);
    await cache.put(request, answer.clone());
  }
  return answer;
}

// Whoever signs out leaves nothing of the page behind; what waits to be sent stays with the page's own store.
self.addEventListener('message', (event) => {
  if (event.data === 'forget') event.waitUntil(caches.delete(KEPT));
});
`;

export function GET(): Response {
  return new Response(WORKER, {
    headers: {
      'content-type': 'text/javascript; charset=utf-8',
      'cache-control': 'no-cache',
      'service-worker-allowed': '/scale',
    },
  });
}
