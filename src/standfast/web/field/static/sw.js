// Keeps one version of the shell on the tablet: everything of it, or nothing. The server writes before this text which
// version it is and which files belong to it. A newer version waits until a person takes it up between two jobs.
/* global SHELL */

const NAME = `standfast-shell-${SHELL.version}`;
const PAGE = "/field/";

self.addEventListener("install", (event) => {
  const fresh = SHELL.files.map((path) => new Request(path, { cache: "reload" }));
  event.waitUntil(caches.open(NAME).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches.keys().then((names) =>
      Promise.all(
        names.filter((name) => name.startsWith("standfast-shell-") && name !== NAME).map((name) => caches.delete(name)),
      ),
    ).then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "take up") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== self.location.origin || !pathname.startsWith(PAGE)) return;
  const asked = event.request.mode === "navigate" ? PAGE : pathname;
  event.respondWith(
    caches.open(NAME).then((cache) => cache.match(asked)).then((kept) => kept ?? fetch(event.request)),
  );
});
