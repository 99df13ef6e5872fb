// What stands against the handover may stay as it is where a second person says so, with a reason; it stays visible.
import { html } from "../html.js";
import { Button } from "../parts.js";
import { attempt, draftOf, dropDraft, go, ui } from "../ui.js";
import { workers } from "../view.js";
import { person, record } from "../work.js";
import { say } from "../words.js";

const MAY_STAND = /^(step|item|tool) /;

/** Whether a second person may let a kind of hindrance stand: work, readings and instruments; no log, hold or dispute. */
export const mayStand = (why) => MAY_STAND.test(why) && why !== "item disputed";

/** For some of what stands against the handover for one reason: who lets it stand, and why. */
export function LetStand({ work, why, targets }) {
  const draft = draftOf(`stand ${why}`);
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  if (!draft.open) return html`<${Button} on=${() => set({ open: true, by: "", reason: "" })}>${say("stand_begin")}<//>`;
  const did = new Set([work.user, ...targets.flatMap((id) => workersOf(work, id))]);
  const save = () => attempt(async () => {
    for (const id of targets) {
      await record("override", stepIdOf(work, id), { of: id, reason: draft.reason.trim(), by: draft.by });
    }
    dropDraft(`stand ${why}`);
  }, say("saved"));
  return html`<div class="look"><p>${say("stand_text", { count: targets.length })}</p>
    <label>${say("hold_by")}<select onChange=${(event) => (event.target.value === "new" ? go(`job/${work.job}/people`) : set({ by: event.target.value }))}>
      <option value="">${say("person_choose")}</option>
      ${Object.keys(work.cards).filter((card) => !did.has(card)).map((card) => html`<option value=${card} selected=${card === draft.by}>${person(card).name}</option>`)}
      <option value="new">${say("person_new")}</option></select></label>
    <label>${say("stand_reason")}<input value=${draft.reason} maxlength="2000" onInput=${(event) => set({ reason: event.target.value })} /></label>
    <div class="actions"><${Button} on=${() => set({ open: false })}>${say("leave")}<//>
      ${draft.by && draft.reason.trim() && html`<${Button} kind="problem" on=${save}>${say("stand_save")}<//>`}</div></div>`;
}

/** The step of an item, or the step itself. */
const stepIdOf = (work, id) => work.state.work.items[id]?.step ?? id;

function workersOf(work, id) {
  const item = work.state.work.items[id];
  return item ? item.values.filter((each) => each.counts).map((each) => each.by) : workers(work.state, id);
}
