/**
 * Keeps a page for when there is no network. All files of a version are fetched before it is used; one that fails leaves the former version whole. A
 * version is never changed under a page that is open.
 */

/** What this file needs of a service worker's scope: the library of the language declares it for workers alone. */
interface WorkerScope {
  readonly prepared: { readonly version: string; readonly files: readonly string[] };
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  addEventListener(kind: "install" | "activate", act: (event: Extendable) => void): void;
  addEventListener(kind: "fetch", act: (event: Fetching) => void): void;
}
interface Extendable {
  waitUntil(done: Promise<unknown>): void;
}
interface Fetching {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const worker = globalThis as unknown as WorkerScope;
const { scope } = worker.registration;
const NAME = `leeway ${scope} ${worker.prepared.version}`;

worker.addEventListener("install", (event) => event.waitUntil(fetchAll()));
worker.addEventListener("activate", (event) => event.waitUntil(forgetFormer()));
worker.addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method === "GET" && url.startsWith(scope)) event.respondWith(answer(event.request));
});

async function fetchAll(): Promise<void> {
  const cache = await caches.open(NAME);
  try {
    await cache.addAll(worker.prepared.files.map((path) => new Request(new URL(path, scope), { cache: "reload" })));
  } catch (error) {
    await caches.delete(NAME);
    throw error;
  }
}

async function forgetFormer(): Promise<void> {
  for (const name of await caches.keys())
    if (name.startsWith(`leeway ${scope} `) && name !== NAME) await caches.delete(name);
  await worker.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (url.href === scope) url.pathname += "index.html";
  const cache = await caches.open(NAME);
  return (await cache.match(url.href)) ?? fetch(request);
}
