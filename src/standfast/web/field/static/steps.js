// What was recorded of each step: done, early, done again, holds and overrides. The rules of steps.py of the record.
import { after, bare, given, last, text } from "./causal.js";
import { SHA } from "./values.js";

/** The state of every step of a sheet, by its id. */
export function steps(told, sheet, items) {
  const dones = new Map();
  const looks = new Map();
  const add = (to, event) => to.set(event.step, [...(to.get(event.step) ?? []), event]);
  for (const event of told.events) {
    if (event.type === "done" || (event.type === "reading" && given(event.data, "done") === true)) add(dones, event);
    if (event.type === "hold") add(looks, event);
  }
  const valid = new Map([...dones].map(([id, all]) => [id, all.filter((each) => !told.gone.has(each.id))]));
  const of = (id) => valid.get(id) ?? [];
  const again = toDoAgain(sheet, of, items);
  return bare(sheet.steps.map((step) => {
    const done = of(step.id);
    const early = done.filter((each) => !step.after.every((id) => of(id).some((before) => after(each, before))));
    const state = early.length < done.length ? "done" : done.length ? "early" : dones.has(step.id) ? "void" : "open";
    const holds = step.holds.map(({ kind }) => hold(told, kind, looks.get(step.id) ?? [], lookedAt(kind, step, sheet, of, items)));
    return [step.id, {
      step, dones: dones.get(step.id) ?? [], valid: done, early, state, again: again.has(step.id), holds,
    }];
  }));
}

const READ_AGAIN = ["mark", "reading", "timer", "torque"];

/** Steps that have to be done again, and what is read in them with them, since something before was done once more. */
function toDoAgain(sheet, of, items) {
  const found = new Set();
  const asked = new Map(sheet.steps.map((step) => [step.id, step.items.filter((item) => READ_AGAIN.includes(item.kind))]));
  for (const step of sheet.steps) {
    const repeated = of(step.id).filter((each) => of(step.id).some((other) => after(each, other)));
    for (const each of repeated) {
      for (const id of step.redo.filter((one) => of(one).length)) {
        const read = (asked.get(id) ?? []).map((item) => items[item.id].counting.map((one) => one.event));
        if ([of(id), ...read].some((events) => !events.some((event) => after(event, each)))) found.add(id);
      }
    }
  }
  return found;
}

/** The work that is looked at before a step begins: what was recorded right before it; before a cover, the joints. */
function lookedAt(kind, step, sheet, of, items) {
  const before = sheet.steps.filter((each) => step.after.includes(each.id));
  const states = before.flatMap((each) => each.items.map((item) => items[item.id]));
  const joints = states.filter((each) => each.item.kind === "torque" && each.counting.length);
  const recorded = (kind === "cover" && joints.length ? joints : states).flatMap((each) => each.counting.map((one) => one.event));
  return recorded.length ? recorded : before.flatMap((each) => of(each.id));
}

function hold(told, kind, all, work) {
  const people = new Set(work.map((each) => each.user));
  const looks = all.filter((each) => text(each.data, "kind") === kind);
  const left = looks.filter((each) => !told.gone.has(each.id) && !work.some((one) => after(one, each)));
  const counting = left.length ? last(left) : [];
  let state = "same person";
  if (!counting.length) state = "open";
  else if (counting.some((each) => given(each.data, "seen") !== true)) state = "refused";
  else if (counting.some((each) => second(text(each.data, "by"), people))) state = "seen";
  return { kind, looks, counting, state };
}

/** Whether somebody is surely another than all who did the work. Who is not named by the hash of a card is nobody. */
export const second = (by, people) =>
  SHA.test(by) && people.size > 0 && !people.has(by) && [...people].every((each) => SHA.test(each));

/** Words of a second person that something may stay as it is, with a reason, said after all that it covers. */
export function overridden(told, target, of) {
  return told.counting("override").filter((each) => {
    if (text(each.data, "of") !== target || !text(each.data, "reason")) return false;
    const people = new Set(of.length ? of.map((event) => event.user) : [each.user]);
    return second(text(each.data, "by"), people) && of.every((event) => after(each, event));
  });
}
