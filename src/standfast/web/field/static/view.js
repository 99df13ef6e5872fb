// What the pages ask of sheet and state: which step is next, what is still missing in one, what a person may not see twice.

export const isDone = (state, id) => ["done", "early"].includes(state.work.steps[id].state) || state.work.steps[id].override.length > 0;

/** The steps before a step that are not recorded done. */
export const openBefore = (sheet, state, step) => step.after.filter((id) => !isDone(state, id));

/** Steps in the order of the sheet that can be done now. */
export const ready = (sheet, state) =>
  sheet.steps.filter((step) => toDo(state, step.id) && !openBefore(sheet, state, step).length);

const toDo = (state, id) => !isDone(state, id) || state.work.steps[id].again;

/** The step to do next: the first that can be done; else the first that is open; null where all are done. */
export const next = (sheet, state) => ready(sheet, state)[0] ?? sheet.steps.find((step) => toDo(state, step.id)) ?? null;

/** A step by its id. */
export const stepOf = (sheet, id) => sheet.steps.find((step) => step.id === id);

/** How many steps are done. */
export const doneCount = (sheet, state) => sheet.steps.filter((step) => isDone(state, step.id)).length;

/** Items of a step of which nothing, or not enough, is recorded. */
export const missing = (state, step) => step.items.filter((item) => ["open", "part"].includes(state.work.items[item.id].state));

/** The values of an item that count. */
export const counting = (state, id) => state.work.items[id].values.filter((each) => each.counts);

/** How many equal parts the photos or serials of an item cover. */
export const covered = (state, id) => counting(state, id).reduce((sum, each) => sum + each.n, 0);

/** Items that two people recorded differently without knowing of each other. */
export const disputes = (sheet, state) =>
  sheet.steps.flatMap((step) => step.items.map((item) => ({ step, item })))
    .filter(({ item }) => state.work.items[item.id].state === "disputed");

/** Problems by state: open, closed, void. */
export const problems = (state, which) => Object.entries(state.work.problems).filter(([, each]) => each.state === which);

/** Everybody who did a step or recorded something in it. */
export const workers = (state, id) => state.work.steps[id].by;

/** Tools of the firm that an item asks for. */
export const toolsFor = (sheet, kinds) =>
  sheet.tools.filter((tool) => [tool.kind, ...(tool.functions ?? [])].some((kind) => kinds.includes(kind)));

/** What the calibration of a tool says on a day (ISO): good, over, unknown. */
export function calibration(tool, day) {
  if (!tool?.calibrated_until) return "unknown";
  return tool.calibrated_until >= day ? "good" : "over";
}

/** The state of a hold point: open, refused, same person, seen. */
export const holdState = ({ state }, step, kind) => state.work.steps[step.id].holds[kind].state;

/** The units in which an item can be read: that of its limit, and those in which the sheet states it too. */
export const unitsOf = (item) =>
  item.limit ? [item.limit, ...(item.limit.also ?? [])].map((each) => each.unit) : [item.unit];
