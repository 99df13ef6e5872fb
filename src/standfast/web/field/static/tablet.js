// This tablet: who it is, how it was enrolled, who holds it, and whether its store is still the one it wrote.
import { forget, missing, note } from "./canary.js";
import { makeKeys } from "./keys.js";
import { append, headOf, recall, recallNames, remember } from "./log.js";
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
    return dev ? { dev, jobs: [] } : null;
  } catch (error) {
    if (error instanceof NoServer || error instanceof Refused) return null;
    throw error;
  }
}

/** Enrol with a code of the office, good for one tablet. */
export async function enrol(code, name) {
  const dev = crypto.randomUUID();
  const { pair, key } = await makeKeys();
  await post("/enrol", { code, dev, name, key });
  await remember({ device: { dev, name, pair, key, enrolled: new Date().toISOString() } });
  device = await recall("device");
  await forget();
  await noted();
  await navigator.storage?.persist?.();
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
  await noted();
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
