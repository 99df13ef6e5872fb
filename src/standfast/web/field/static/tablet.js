// This tablet: who it is, how it was enrolled, who holds it, and whether its store is still the one it wrote.
import { forget, missing, note } from "./canary.js";
import { makeKeys, sign } from "./keys.js";
import { append, drop, headOf, recall, recallNames, remember } from "./log.js";
import { NoServer, Refused, get, post } from "./office.js";

let device = null;

/** { dev, name, pair, key, enrolled } of this tablet; null before it was enrolled. */
export const here = () => device;

/** What the browser lacks that the record needs; empty where nothing is missing. */
export function lacking() {
  const there = {
    "https": self.isSecureContext,
    "crypto.subtle": Boolean(self.crypto?.subtle),
    "indexedDB": Boolean(self.indexedDB),
    "serviceWorker": "serviceWorker" in navigator,
    "locks": Boolean(navigator.locks),
    "caches": Boolean(self.caches),
  };
  return Object.keys(there).filter((name) => !there[name]);
}

/**
 * Open what the store knows. Gives null, or what is lost: { dev, jobs: [{ job, was, here }] } where a note kept apart
 * knows more than the store does, { dev, jobs: [] } where the office knows this tablet and the store does not.
 */
export async function opened() {
  device = (await recall("device")) ?? null;
  const lost = await missing(device?.dev ?? "", headOf);
  if (lost) return lost;
  if (device) return null;
  try {
    const { dev = "" } = await get("/jobs");
    return dev && dev !== (await recall("left")) ? { dev, jobs: [] } : null;
  } catch (error) {
    if (error instanceof NoServer || error instanceof Refused) return null;
    throw error;
  }
}

/**
 * Enrol with a code of the office, good for one tablet. A tablet that the office does not know any more (its cookie is
 * gone, it was withdrawn) stays the same one, with its key and its log.
 */
export async function enrol(code, name) {
  const { dev, pair, key } = device ?? { dev: crypto.randomUUID(), ...(await makeKeys()) };
  await post("/enrol", { code, dev, name, key, sig: await sign(pair, `sf1-enrol\n${code}\n${dev}`) });
  await remember({ device: { dev, name, pair, key, enrolled: new Date().toISOString() } });
  device = await recall("device");
  await noted();
  await navigator.storage?.persist?.();
}

/**
 * The tablet `dev` is given up: the next one begins a log of its own. What is still here of the old one stays, as the
 * log of another tablet.
 */
export async function leave(dev) {
  await forget();
  for (const begin of ["head ", "clock ", "user "]) await drop(await recallNames(begin));
  await remember({ device: null, left: dev });
}

/** Write down, apart from the store, how far its logs stand. */
export async function noted() {
  if (!device) return;
  const heads = {};
  for (const name of await recallNames("head ")) heads[name.slice("head ".length)] = (await recall(name)).seq;
  await note(device.dev, heads);
}

/** Add an event of this tablet to its log of a job; resolved once it is on the disk. */
export async function write(job, make, files = []) {
  const line = await append(job, device.dev, make, files);
  // The event is on the disk: a note that finds no room there must not make it look unsaved. The next one is tried again.
  await noted().catch(() => {});
  return line;
}

/** Whether the browser promises not to throw the store away, and how much it says there is room for. */
export async function storage() {
  const kept = (await navigator.storage?.persisted?.()) ?? false;
  const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  return { kept, usage, quota };
}

/** Ask the browser again to keep the store. */
export const keepStorage = () => navigator.storage?.persist?.() ?? Promise.resolve(false);
