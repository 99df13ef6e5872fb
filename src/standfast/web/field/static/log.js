// The store of this tablet: events, photos and what is known of the job, in IndexedDB.
// What was written counts as saved only once the transaction has ended on the disk.
import { FIRST, hashOf } from "./chain.js";
import { room } from "./room.js";

const NAME = "standfast-field";
const TRIES = 4;
let opened = null;

/** The store cannot be written: what the browser said. */
export class NotSaved extends Error {}

/** The store is no longer the one of this tablet: thrown away, and made anew empty. */
export class Gone extends Error {}

function open() {
  opened ??= new Promise((found, failed) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      const db = asked.result;
      db.createObjectStore("events", { keyPath: ["job", "dev", "seq"] });
      db.createObjectStore("files", { keyPath: "sha" }).createIndex("job", "job");
      db.createObjectStore("meta");
    };
    asked.onsuccess = () => {
      const db = asked.result;
      db.onclose = () => (opened = null);
      db.onversionchange = () => {
        db.close();
        opened = null;
      };
      found(db);
    };
    asked.onerror = () => failed(asked.error);
    asked.onblocked = () => failed(new DOMException("another page holds the store", "BlockedError"));
  }).catch((error) => {
    opened = null;
    throw error;
  });
  return opened;
}

const lost = (error) => ["UnknownError", "InvalidStateError"].includes(error?.name);

/** Run one transaction; `work` may ask nothing that is not of the transaction. Resolved when it is on the disk. */
async function run(stores, mode, work, bytes = 0) {
  if (mode === "readwrite") {
    await room(bytes).catch((error) => {
      throw new NotSaved(String(error));
    });
  }
  for (let tries = 1; ; tries += 1) {
    try {
      const db = await open();
      return await new Promise((done, failed) => {
        const tx = db.transaction(stores, mode, { durability: "strict" });
        const result = {};
        tx.oncomplete = () => done(result);
        tx.onabort = () => failed(result.error ?? tx.error ?? new DOMException("aborted", "AbortError"));
        work(Object.fromEntries(stores.map((name) => [name, tx.objectStore(name)])), result, tx);
      });
    } catch (error) {
      opened = lost(error) ? null : opened;
      if (!lost(error) || tries >= TRIES) throw mode === "readonly" ? error : new NotSaved(String(error));
      await new Promise((later) => setTimeout(later, 100 * tries));
    }
  }
}

const ofJob = (job, dev) =>
  dev === undefined ? IDBKeyRange.bound([job], [job, []]) : IDBKeyRange.bound([job, dev], [job, dev, []]);

async function ask(store, request) {
  const result = await run([store], "readonly", (stores, into) => {
    request(stores[store]).onsuccess = (event) => (into.value = event.target.result);
  });
  return result.value;
}

/** A small fact kept under a name; undefined where there is none. */
export const recall = (name) => ask("meta", (meta) => meta.get(name));

/** Keep small facts; all of them or none. */
export const remember = (facts) =>
  run(["meta"], "readwrite", ({ meta }) => Object.entries(facts).forEach(([name, value]) => meta.put(value, name)));

/** Forget small facts. */
export const drop = (names) => run(["meta"], "readwrite", ({ meta }) => names.forEach((name) => meta.delete(name)));

/** Names of the facts that begin with some letters. */
export const recallNames = (begin) => ask("meta", (meta) => meta.getAllKeys(IDBKeyRange.bound(begin, `${begin}\uffff`)));

/** How far the log of this tablet stands in a job. */
export const headOf = async (job) => (await recall(`head ${job}`)) ?? { seq: 0, hash: FIRST };

/** Every event of a job, of every device, by device and place. */
export const linesOf = (job, dev) => ask("events", (events) => events.getAll(ofJob(job, dev)));

/** Photos and cards of a job, with their contents. */
export const filesOf = (job) => ask("files", (files) => files.index("job").getAll(job));

/** Hashes of the photos and cards of a job. */
export const fileNamesOf = (job) => ask("files", (files) => files.index("job").getAllKeys(job));

/** One photo or card. */
export const fileOf = (sha) => ask("files", (files) => files.get(sha));

/**
 * Add an event to the log of this tablet, with the photos that it names, in one transaction.
 * `make(head)` gives its text. Where another page was faster, it is made again after that page's event. A store that
 * does not know the tablet gets no event of it: it would be a second log under the same name.
 */
export async function append(job, dev, make, files = []) {
  for (;;) {
    const head = await headOf(job);
    const raw = await make(head);
    const line = { job, dev, seq: head.seq + 1, hash: await hashOf(raw), raw };
    const result = await run(["events", "files", "meta"], "readwrite", (stores, into) => {
      stores.meta.get("device").onsuccess = ({ target }) => (into.owner = target.result?.dev);
      const asked = stores.meta.get(`head ${job}`);
      asked.onsuccess = () => {
        if (into.owner !== dev) return;
        const now = asked.result ?? { seq: 0, hash: FIRST };
        const again = now.seq === line.seq && now.hash === line.hash;
        into.done = again || (now.seq === head.seq && now.hash === head.hash);
        if (again || !into.done) return;
        files.forEach((file) => stores.files.put({ ...file, job }));
        stores.events.add(line);
        stores.meta.put({ seq: line.seq, hash: line.hash }, `head ${job}`);
      };
    }, files.reduce((sum, file) => sum + file.bytes, 0));
    if (result.owner !== dev) throw new Gone(dev);
    if (result.done) return line;
  }
}

/** Take events of other devices; what is there already is left alone. Gives those whose hash is wrong or differs. */
export async function take(job, lines) {
  const right = [];
  const wrong = [];
  for (const line of lines) {
    const fits = (await hashOf(line.raw)) === line.hash && JSON.parse(line.raw).job === job;
    (fits ? right : wrong).push({ job, dev: line.dev, seq: line.seq, hash: line.hash, raw: line.raw });
  }
  await run(["events"], "readwrite", ({ events }) => {
    for (const line of right) {
      const asked = events.get([job, line.dev, line.seq]);
      asked.onsuccess = () => {
        if (asked.result === undefined) events.add(line);
        else if (asked.result.hash !== line.hash) wrong.push(line);
      };
    }
  });
  return wrong;
}

/** Of every device, how far its log stands here without a gap. */
export function vectorOf(lines) {
  const seen = {};
  for (const line of lines) if (line.seq === (seen[line.dev] ?? 0) + 1) seen[line.dev] = line.seq;
  return seen;
}
