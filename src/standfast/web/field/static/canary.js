// A second note of how far the record of this tablet stood, kept apart from the store: when the browser has thrown the
// store away, the note says that there was one, and the tablet is never taken for a new one.

const CACHE = "standfast-canary";
const PLACE = "/field/canary";

/** Write down who this tablet is and how far its logs stand. */
export async function note(dev, heads) {
  const text = JSON.stringify({ dev, heads });
  localStorage.setItem(CACHE, text);
  const cache = await caches.open(CACHE);
  await cache.put(PLACE, new Response(text, { headers: { "Content-Type": "application/json" } }));
}

async function notes() {
  const found = [localStorage.getItem(CACHE)];
  try {
    const kept = await (await caches.open(CACHE)).match(PLACE);
    found.push(kept ? await kept.text() : null);
  } catch {
    found.push(null);
  }
  return found.filter(Boolean).map((text) => JSON.parse(text));
}

/**
 * What the notes know and the store does not: null where nothing is missing.
 * `dev` is the tablet that the store names ("" for none), `headOf(job)` how far its log stands there.
 */
export async function missing(dev, headOf) {
  for (const each of await notes()) {
    const jobs = [];
    for (const [job, seq] of Object.entries(each.heads)) {
      const here = each.dev === dev ? (await headOf(job)).seq : 0;
      if (here < seq) jobs.push({ job, was: seq, here });
    }
    if (jobs.length || each.dev !== dev) return { dev: each.dev, jobs };
  }
  return null;
}

/** A person has read what is lost and begins anew: the notes are of the new tablet from now on. */
export async function forget() {
  localStorage.removeItem(CACHE);
  await caches.delete(CACHE);
}
