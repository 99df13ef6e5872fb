// Whether the disk has room, found out by writing: what a browser estimates is no measure of it. A browser that runs out
// of room in the middle of a write to its store may find the store damaged when it starts again, and throws all of it
// away, what was saved long before too. So nothing is written where a trial of the same size does not fit first.

const NAME = "standfast-room";
const SPARE_BYTES = 1_000_000;
/** Errors of browsers that have no files of their own for pages: there nothing can be tried. */
const WITHOUT = ["SecurityError", "NotSupportedError"];

/** Nothing where so many bytes and some more fit on the disk; else the fault of the trial. What was tried is gone then. */
export async function room(bytes) {
  if (!self.FileSystemFileHandle?.prototype.createWritable || !navigator.storage?.getDirectory) return;
  let trial = null;
  try {
    const file = await (await navigator.storage.getDirectory()).getFileHandle(NAME, { create: true });
    trial = await file.createWritable();
    await trial.write(new Uint8Array(SPARE_BYTES + bytes));
  } catch (error) {
    if (!WITHOUT.includes(error.name)) throw error;
  } finally {
    await trial?.abort().catch(() => {});
  }
}
