// What every page shares: where it is, what is going on, and how something is recorded from a button.
import { Gone, NotSaved } from "./log.js";
import { NoServer, Refused } from "./office.js";
import { say } from "./words.js";

/** `fault` is the last thing that went wrong, `said` the last that went right; `draw` shows the page again. */
export const ui = { fault: null, said: "", saidAt: "", busy: false, update: null, lost: null, draw: () => {} };

/** Go to a page; its place stands after the # so that it works without a server. */
export function go(path) {
  ui.fault = null;
  if (location.hash === `#/${path}`) ui.draw();
  else location.hash = `#/${path}`;
  self.scrollTo(0, 0);
}

/** The parts of the place of the page. */
export const place = () => location.hash.replace(/^#\/?/, "").split("/").filter(Boolean).map(decodeURIComponent);

/** Do something once, however often the button is hit meanwhile. True where it went well. */
export async function attempt(work, said = "") {
  if (ui.busy) return false;
  ui.busy = true;
  try {
    await work();
    saying(said);
    ui.fault = null;
    return true;
  } catch (error) {
    ui.fault = toldOf(error);
    ui.said = "";
    return false;
  } finally {
    ui.busy = false;
    ui.draw();
  }
}

/** Show on this page what was saved. */
export const saying = (said) => Object.assign(ui, { said, saidAt: location.hash });

/** A fault as people read it: { what, why, todo }. */
export function toldOf(error) {
  if (error instanceof NotSaved) return { what: say("not_saved"), why: error.message, todo: say("not_saved_do") };
  if (error instanceof Gone) return { what: say("lost_title"), why: say("lost_text"), todo: say("lost_do") };
  if (error instanceof NoServer) return { what: say("no_server"), why: "", todo: say("no_server_do") };
  if (error instanceof Refused) return { what: error.message, why: error.why, todo: error.todo };
  return { what: say("fault"), why: String(error?.message ?? error), todo: say("fault_do") };
}

/** What was typed and not saved yet, by step: kept until it is on the disk, whatever page is looked at meanwhile. */
const drafts = new Map();

export function draftOf(id) {
  if (!drafts.has(id)) drafts.set(id, { values: {}, tools: {} });
  return drafts.get(id);
}

export const dropDraft = (id) => drafts.delete(id);

/** Whether something is typed that is not on the disk yet. */
export const hasDrafts = () => [...drafts.values()].some((draft) => {
  const texts = [draft.text, draft.reason, draft.person?.name, draft.problem?.text];
  const fields = [...Object.values(draft.values), ...Object.values(draft.serials ?? {})];
  return [...texts, ...fields.flatMap((each) => [each.value, each.text])].some(Boolean);
});
