/**
 * Keeps the pages of counties that were opened, so that they can be read without signal. A kept page says when it was
 * kept, carries no script, and is shown only where the network does not answer: numbers are never stale in silence.
 * Only pages of counties are kept; nothing else of the site is touched but that an offline page stands in for it.
 */
const PAGES = 'county-pages-1';
const PARTS = 'page-parts-1';
const MOST_PAGES = 60;
/** A network that is slower than this is as good as none for who has a kept page, milliseconds. */
const PATIENCE = 8_000;
const KEPT_AT = 'x-kept-at';
const LANGUAGES = ['', '/es'];
const COUNTY = /^(?:\/es)?\/counties\/[^/]+$/;
/** Addresses of people's own pages, programs and files: never kept, never replaced. */
const LEFT_ALONE =
  /^\/(?:staff|api\/v1|feeds|outlines|_next)(?:\/|$)|^\/releases\/\d+\/.|\.(?:json|atom|pdf|svg|png|txt|xml)$/;

self.addEventListener('install', (event) => {
  event.waitUntil(
    Promise.all(LANGUAGES.map((language) => keep(PARTS, `${language}/offline`))).then(() =>
      self.skipWaiting(),
    ),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      const names = await caches.keys();
      await Promise.all(
        names.filter((name) => name !== PAGES && name !== PARTS).map((name) => caches.delete(name)),
      );
      await self.clients.claim();
    })(),
  );
});

// A page that was open before this worker ran asks to be kept.
self.addEventListener('message', (event) => {
  const path = String(event.data?.keep ?? '');
  if (COUNTY.test(path)) event.waitUntil(keep(PAGES, path).then(prune));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return;
  if (pathname.startsWith('/_next/static/') && pathname.endsWith('.css')) {
    event.respondWith(partOf(request));
  } else if (request.mode === 'navigate' && !LEFT_ALONE.test(pathname)) {
    event.respondWith(
      COUNTY.test(pathname) ? countyPage(event, pathname) : fetch(request).catch(() => offlinePage(pathname)),
    );
  }
});

async function countyPage(event, path) {
  const answer = fetch(event.request);
  const kept = await (await caches.open(PAGES)).match(path);
  const waited = kept ? Promise.race([answer, after(PATIENCE)]) : answer;
  try {
    const response = await waited;
    if (response.ok) event.waitUntil(store(PAGES, path, response.clone()).then(prune));
    return response;
  } catch {
    // What comes late is kept for the next time.
    event.waitUntil(
      answer.then((response) => (response.ok ? store(PAGES, path, response) : undefined)).catch(() => {}),
    );
    return kept ? withNote(kept, path) : offlinePage(path);
  }
}

function after(milliseconds) {
  return new Promise((_, reject) => {
    setTimeout(() => reject(new Error('too slow')), milliseconds);
  });
}

async function keep(cache, path) {
  const response = await fetch(path, { cache: 'no-cache' });
  if (response.ok) await store(cache, path, response);
}

/** What a page has for its scripts, and what is loaded ahead for them. */
const SCRIPTS = /<script\b[^>]*>[\s\S]*?<\/script>|<link[^>]+rel="(?:module)?preload"[^>]*>/gi;

/** Keeps a page without its scripts, with the day and hour, and its styles beside it. */
async function store(cache, path, response) {
  const html = (await response.text()).replace(SCRIPTS, '');
  const headers = new Headers({
    'Content-Type': 'text/html; charset=utf-8',
    'Content-Security-Policy':
      "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'",
    [KEPT_AT]: new Date().toISOString(),
  });
  const parts = await caches.open(PARTS);
  await Promise.all(
    [...stylesOf(html), '/mark.svg'].map(async (address) => {
      if (!(await parts.match(address))) await parts.add(address).catch(() => {});
    }),
  );
  await (await caches.open(cache)).put(path, new Response(html, { headers }));
}

function stylesOf(html) {
  return [...html.matchAll(/<link[^>]+href="(\/_next\/static\/[^"]+\.css)"/g)].map(([, address]) => address);
}

async function partOf(request) {
  const kept = await (await caches.open(PARTS)).match(request);
  return kept ?? fetch(request);
}

/** The oldest pages go, and styles that no kept page has. */
async function prune() {
  const [pages, parts] = await Promise.all([caches.open(PAGES), caches.open(PARTS)]);
  const kept = await Promise.all(
    (await pages.keys()).map(async (request) => {
      const response = await pages.match(request);
      return { request, at: response.headers.get(KEPT_AT) ?? '', html: await response.text() };
    }),
  );
  kept.sort((a, b) => (a.at < b.at ? 1 : -1));
  await Promise.all(kept.slice(MOST_PAGES).map(({ request }) => pages.delete(request)));
  const offline = await Promise.all(
    LANGUAGES.map(async (language) => (await (await parts.match(`${language}/offline`))?.text()) ?? ''),
  );
  const needed = new Set(
    [...kept.slice(0, MOST_PAGES).map(({ html }) => html), ...offline].flatMap(stylesOf),
  );
  for (const request of await parts.keys()) {
    const { pathname } = new URL(request.url);
    if (pathname.endsWith('.css') && !needed.has(pathname)) await parts.delete(request);
  }
}

/** A kept page with the note that says how old it is; the words are those of the offline page. */
async function withNote(kept, path) {
  const html = await kept.text();
  const [, note = ''] = /<p id="kept-note"[^>]*>([\s\S]*?)<\/p>/.exec(await offlineText(path)) ?? [];
  const when = new Intl.DateTimeFormat(languageOf(path), { dateStyle: 'long', timeStyle: 'short' }).format(
    new Date(kept.headers.get(KEPT_AT)),
  );
  const told = `<p class="kept-note" role="status">${note.replace('{when}', when)}</p>`;
  return new Response(html.replace(/(<main\b)/, `${told}$1`), { headers: kept.headers });
}

async function offlinePage(path) {
  const pages = await caches.open(PAGES);
  const links = await Promise.all(
    (await pages.keys()).map(async (request) => {
      const [, name] = /<h1>([\s\S]*?)<\/h1>/.exec(await (await pages.match(request)).text()) ?? [];
      return `<li><a href="${new URL(request.url).pathname}">${name ?? ''}</a></li>`;
    }),
  );
  const html = (await offlineText(path)).replace(/(<ul id="kept"[^>]*>)[\s\S]*?(<\/ul>)/, (_, open, close) =>
    links.length > 0 ? open + links.join('') + close : '',
  );
  return new Response(html, {
    status: 503,
    headers: {
      'Content-Type': 'text/html; charset=utf-8',
      'Content-Security-Policy': "default-src 'none'; style-src 'self'; img-src 'self' data:",
    },
  });
}

async function offlineText(path) {
  const kept = await (await caches.open(PARTS)).match(`${languageOf(path) === 'es' ? '/es' : ''}/offline`);
  return kept ? kept.text() : '';
}

function languageOf(path) {
  return path === '/es' || path.startsWith('/es/') ? 'es' : 'en';
}
