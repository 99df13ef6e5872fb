// Handing over: what stands against it, and the signatures under the state of the work as it is now.
import { html } from "../html.js";
import { Bar, Button, Fault, Head, Said, TitleBlock } from "../parts.js";
import { attempt, draftOf, dropDraft, go, ui } from "../ui.js";
import { stepOf } from "../view.js";
import { checkpoint, person, record } from "../work.js";
import { say, told } from "../words.js";
import { LetStand, mayStand } from "./override.js";

const WHY = {
  "step open": "why_step_open", "step early": "why_step_early", "step void": "why_step_void", "step again": "why_step_again",
  "hold open": "why_hold_open", "hold refused": "why_hold_refused", "hold same person": "why_hold_same",
  "item open": "why_item_open", "item part": "why_item_part", "item disputed": "why_item_disputed",
  "item fail": "why_item_fail", "item cannot tell": "why_item_cannot_tell", "tool fail": "why_tool_fail",
  "tool cannot tell": "why_tool_cannot_tell", "log gap": "why_gap", "log fork": "why_fork", "problem open": "why_problem",
};
const ROLES = [["responsible person", "sign_responsible"], ["owner", "sign_owner"], ["second person", "sign_second"]];
const SIGNED = { current: ["■", "sign_current"], stale: ["▲", "sign_stale"], void: ["▢", "voided"] };

export function Sign({ work }) {
  const { state } = work;
  const draft = draftOf("sign");
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const sign = () => attempt(async () => {
    await checkpoint();
    await record("sign", "", { role: draft.role, by: draft.by, state: work.state.hash, vector: { ...work.seen } });
    dropDraft("sign");
  }, say("saved_sign"));
  const kinds = [...new Set(state.because.map((each) => each.why))];
  return html`<main><${Head} title=${say("sign_title")} above=${work.title} />
    <${Fault} /><${Said} />
    ${state.ready
      ? html`<p class="verdict pass"><span class="shape" aria-hidden="true">✓</span><b>${say("sign_ready")}</b></p>`
      : html`<section class="early"><h2><span aria-hidden="true">▲ </span>${say("sign_not_ready", { count: state.because.length })}</h2>
        ${kinds.map((why) => html`<details><summary>${say(WHY[why])} (${state.because.filter((each) => each.why === why).length})</summary>
          <ul>${state.because.filter((each) => each.why === why).map(({ what }) => html`<li>${nameOf(work, what)}</li>`)}</ul>
          ${mayStand(why) && html`<${LetStand} work=${work} why=${why} targets=${state.because.filter((each) => each.why === why).map((each) => each.what)} />`}
        </details>`)}</section>`}
    ${state.signs.map((each) => html`<p class="mark"><span aria-hidden="true" class="shape">${SIGNED[each.state][0]}</span>
      ${say(ROLES.find(([role]) => role === each.role)?.[1] ?? "sign_second")}: ${each.by ? person(each.by).name : say("nobody")} — ${say(SIGNED[each.state][1])}</p>`)}
    ${state.ready && html`<h2>${say("sign_now")}</h2>
      <label>${say("person_role")}<select onChange=${(event) => set({ role: event.target.value })}><option value="">${say("role_choose")}</option>
        ${ROLES.map(([role, word]) => html`<option value=${role} selected=${draft.role === role}>${say(word)}</option>`)}</select></label>
      <label>${say("sign_by")}<select onChange=${(event) => (event.target.value === "new" ? go(`job/${work.job}/people`) : set({ by: event.target.value }))}>
        <option value="">${say("person_choose")}</option>
        ${Object.keys(work.cards).map((card) => html`<option value=${card} selected=${draft.by === card}>${person(card).name}</option>`)}
        <option value="new">${say("person_new")}</option></select></label>
      ${draft.role && draft.by && html`<p>${say("sign_text", { name: person(draft.by).name })}</p>
        <${Button} kind="done" on=${sign}><span aria-hidden="true">✓ </span>${say("sign_do")}<//>`}`}
    <${TitleBlock} work=${work} /><${Bar} at="record" />
  </main>`;
}

/** What stands against the handover, in the words of the sheet and with the way to it. */
function nameOf(work, what) {
  const [id, hold] = what.split(": ");
  const step = stepOf(work.sheet, id) ?? work.sheet.steps.find((each) => each.items.some((item) => item.id === what));
  const item = step?.items.find((each) => each.id === what);
  const problem = work.state.work.problems[what];
  if (problem) return html`<a href=${`#/job/${work.job}/problems`}>${problem.text}</a>`;
  if (!step) return what;
  const text = item ? told(item.what) : hold ? told(step.holds.find((each) => each.kind === hold).what) : told(step.text);
  return html`<a href=${`#/job/${work.job}/step/${encodeURIComponent(step.id)}`}>${step.number} · ${text}</a>`;
}
