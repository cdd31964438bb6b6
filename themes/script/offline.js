// The site without a network, after the first visit over https. While there is
// a network every file comes from it, asked for anew: nothing stale is shown.
const kept = 'twodip ' + self.registration.scope, most = 400;
const first = ['./', 'look.css', 'noscript.css', 'site.js', 'find.js', 'show.js', 'data/columns.js'];

const fresh = async request => {
  const answer = await fetch(request, { cache: 'no-cache' });
  if (answer.ok && answer.type === 'basic') {
    // A browser opens no page from an answer that was led on from elsewhere.
    const copy = answer.redirected ? new Response(await answer.clone().blob(), { headers: answer.headers }) : answer.clone();
    await (await caches.open(kept)).put(request.url.replace(/[?#].*$/, ''), copy);
  }
  return answer;
};
const take = name => fresh(new Request(new URL(name, self.registration.scope))).catch(() => null);

// gather takes the wall, its pictures and the pages that it leads to.
const gather = async () => {
  await Promise.all(first.map(take));
  const wall = await take('index.html');
  if (!wall) return;
  const text = await wall.text();
  const names = [...text.matchAll(/ (?:src|href)="([^"#:]+\.(?:html|jpg))"/g)].map(m => m[1]);
  for (const name of [...new Set(names)].slice(0, most)) await take(name);
};

self.addEventListener('install', e => { self.skipWaiting(); e.waitUntil(gather()); });
self.addEventListener('activate', e => e.waitUntil(self.clients.claim()));
self.addEventListener('fetch', e => {
  if (e.request.method !== 'GET' || !e.request.url.startsWith(self.registration.scope)) return;
  e.respondWith(fresh(e.request).catch(async () => (await caches.open(kept)).match(e.request.url.replace(/[?#].*$/, '')).then(r => r || Response.error())));
});
