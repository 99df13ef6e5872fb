// A hold point: a second person, who did none of the work, looks before the work goes on.
import { html } from "../html.js";
import { Button } from "../parts.js";
import { attempt, draftOf, go, ui } from "../ui.js";
import { holdState, workers } from "../view.js";
import { person, record } from "../work.js";
import { say, told } from "../words.js";

const STATES = {
  open: ["□", "hold_open"], seen: ["■", "hold_seen"], refused: ["✕", "hold_refused"], "same person": ["▲", "hold_same"],
};

export function Hold({ work, step, hold }) {
  const known = work.state.work.steps[step.id].holds[hold.kind];
  const now = holdState(work, step, hold.kind);
  const [shape, word] = STATES[now];
  const draft = (draftOf(step.id).holds ??= {})[hold.kind] ??= { by: "", text: "", open: false };
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const answer = (seen) => attempt(async () => {
    const data = { kind: hold.kind, by: draft.by, seen };
    if (draft.text.trim()) data.text = draft.text.trim();
    await record("hold", step.id, data);
    Object.assign(draft, { by: "", text: "", open: false });
  }, say("saved"));
  const looks = known.looks.filter((each) => each.counts);
  return html`<section class=${`hold ${now === "seen" ? "met" : ""}`}>
    <h2>${say("hold_title")}</h2>
    <p class="what">${told(hold.what)}</p><p>${told(hold.who)}</p>
    <p class="mark"><span aria-hidden="true" class="shape">${shape}</span> ${say(word)}
      ${looks.map((each) => html` — ${person(each.by).name}${each.text && `: ${each.text}`}`)}</p>
    ${now !== "seen" && !draft.open && html`<${Button} kind="quick wide" on=${() => set({ open: true })}>${say("hold_begin")}<//>`}
    ${draft.open && html`<${Look} work=${work} step=${step} draft=${draft} set=${set} answer=${answer} />`}
  </section>`;
}

function Look({ work, step, draft, set, answer }) {
  const before = step.after.flatMap((id) => workers(work.state, id));
  const did = new Set(before.length ? before : [work.user]);
  const others = Object.keys(work.cards).filter((card) => !did.has(card));
  return html`<div class="look">
    <label>${say("hold_by")}<select onChange=${(event) => (event.target.value === "new" ? go(`job/${work.job}/people`) : set({ by: event.target.value }))}>
      <option value="">${say("person_choose")}</option>
      ${others.map((card) => html`<option value=${card} selected=${card === draft.by}>${person(card).name}</option>`)}
      <option value="new">${say("person_new")}</option></select></label>
    <p class="limit">${say("hold_not_you")}</p>
    <label>${say("hold_text")}<input value=${draft.text} maxlength="2000" onInput=${(event) => set({ text: event.target.value })} /></label>
    ${draft.by && html`<div class="actions">
      <${Button} kind="problem" on=${() => answer(false)}><span aria-hidden="true">✕ </span>${say("hold_no")}<//>
      <${Button} kind="done" on=${() => answer(true)}><span aria-hidden="true">✓ </span>${say("hold_yes")}<//></div>`}
  </div>`;
}
