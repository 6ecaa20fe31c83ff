// Keeps the page at the cloth, with all that it needs, for when the link drops; while there is a link nothing old is shown.

const SHELF = "cloth-side";
const PAGES = 6;

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

const isPage = (url) => new URL(url).pathname === "/cloth-side";

/** The page that was just opened, and its files; of pages only the last few are kept. */
async function keep({ page, files }) {
  const shelf = await caches.open(SHELF);
  await shelf.delete(page);
  await shelf.addAll([page, ...new Set(files)]);
  const pages = (await shelf.keys()).filter((each) => isPage(each.url));
  for (const old of pages.slice(0, -PAGES)) await shelf.delete(old);
}

addEventListener("message", (event) => {
  const known = isPage(event.data?.page ?? "about:blank");
  const done = known ? keep(event.data).then(() => true, () => false) : Promise.resolve(false);
  event.waitUntil(done.then((kept) => event.ports[0]?.postMessage(kept)));
});

addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  event.respondWith(fetch(event.request).then(
    (answer) => answer,
    async (error) => {
      const found = await caches.open(SHELF).then((shelf) => shelf.match(event.request));
      if (found) return found;
      throw error;
    },
  ));
});
