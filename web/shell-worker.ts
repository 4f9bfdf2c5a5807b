/**
 * Caches the files of the page on this device, so that it opens while the service is away. It never caches an answer
 * under /api. As long as the service answers, it determines the newest page; files named by their content cannot be out
 * of date.
 *
 * A separate script, next to the page. The build puts `SHELL` in front of it (scripts/build/shell.ts).
 */
declare const SHELL: {
  /** Changes with any file of the page. */
  readonly version: string;
  /** Paths from the root, with the SHA-256 of each in hexadecimal. */
  readonly files: Readonly<Record<string, string>>;
};

// TypeScript has the types of workers only where it does not have those of pages.
interface LastingEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface AskedEvent extends LastingEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker {
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: LastingEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: AskedEvent) => void): void;
}
const worker = globalThis as unknown as Worker;

const family = 'shell-';
const cacheName = `${family}${SHELL.version}`;
/** A phone at the edge of the network gets no answer for a long time, and the person at the fire cannot wait. */
const patienceMs = 3000;

worker.addEventListener('install', (event) => {
  event.waitUntil(saveAll().then(() => worker.skipWaiting()));
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(forgetOlder().then(() => worker.clients.claim()));
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin || pathname.startsWith('/api/')) return;
  if (pathname.startsWith('/assets/')) event.respondWith(cacheFirst(request));
  else if (pathname in SHELL.files) event.respondWith(networkFirst(request, pathname));
  else if (request.mode === 'navigate') event.respondWith(networkFirst(request, '/index.html'));
});

/** All of them or none: a mixture of two builds would be worse than no page. */
async function saveAll(): Promise<void> {
  const cache = await caches.open(cacheName);
  await Promise.all(
    Object.entries(SHELL.files).map(async ([path, digest]) => {
      const response = await fetch(path, { cache: 'no-cache' });
      if (!response.ok || (await sha256(response.clone())) !== digest) throw new Error(`${path} is of another build`);
      await cache.put(path, response);
    }),
  );
}

async function forgetOlder(): Promise<void> {
  const older = (await caches.keys()).filter((name) => name.startsWith(family) && name !== cacheName);
  await Promise.all(older.map((name) => caches.delete(name)));
}

async function sha256(response: Response): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

async function networkFirst(request: Request, path: string): Promise<Response> {
  const cached = () => caches.open(cacheName).then((cache) => cache.match(path));
  try {
    const newest = await fetch(request, { signal: AbortSignal.timeout(patienceMs) });
    // A service that is just closing answers with an error instead of the page.
    return newest.status < 500 ? newest : ((await cached()) ?? newest);
  } catch (cause) {
    const found = await cached();
    if (found) return found;
    throw cause;
  }
}

async function cacheFirst(request: Request): Promise<Response> {
  return (await caches.match(request.url)) ?? fetch(request);
}
