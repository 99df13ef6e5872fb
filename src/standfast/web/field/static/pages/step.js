// One step, large, on one screen: what to do, what to watch, what to record; then done.
import { html } from "../html.js";
import { Bar, Button, Drawing, Fault, Head, Overdue, Said, StepMark, TitleBlock } from "../parts.js";
import { attempt, draftOf, dropDraft, go, saying, ui } from "../ui.js";
import { holdState, isDone, missing, openBefore, stepOf } from "../view.js";
import { record } from "../work.js";
import { say, told } from "../words.js";
import { Items, isFilled, linesOfDraft } from "./form.js";
import { Hold } from "./holdpoint.js";
import { Recorded } from "./recorded.js";

const PARTS = {
  arrive: "part_arrive", fix: "part_fix", hang: "part_hang", run: "part_run", isolate: "part_isolate",
  connect: "part_connect", check: "part_check", power: "part_power", prove: "part_prove", "hand over": "part_hand_over",
};

/** The name of a part of the work. */
export const partOf = (step) => (PARTS[step.part] ? say(PARTS[step.part]) : step.part);

export function Step({ work, step }) {
  const { sheet, state } = work;
  const here = state.work.steps[step.id];
  const draft = draftOf(step.id);
  const again = here.again || draft.again;
  const shown = isDone(state, step.id) && !again;
  return html`<main class="step" key=${step.id}>
    <${Head} long=${told(step.text).length > 110} title=${told(step.text)} above=${html`
      <span class="number">${step.number}</span> <span>${say("step_of", { all: sheet.steps.length })} · ${partOf(step)}</span>
      <${StepMark} step=${here} />`} />
    <${Fault} /><${Said} />
    <${Overdue} work=${work} /><${Early} sheet=${sheet} state=${state} step=${step} />
    ${step.cautions.map((each) => html`<p class="caution"><b aria-hidden="true">⚠ </b>${told(each)}</p>`)}
    ${step.people && html`<p class="people">${say("people", { people: step.people })}</p>`}
    ${step.first.length > 0 && html`<h2>${say("first")}</h2><ul>${step.first.map((each) => html`<li>${told(each)}</li>`)}</ul>`}
    ${step.holds.map((hold) => html`<${Hold} work=${work} step=${step} hold=${hold} />`)}
    ${step.drawings.map((id) => html`<${Drawing} drawing=${sheet.drawings.find((each) => each.id === id)} />`)}
    ${step.torque.length > 0 && html`<h2>${say("torques")}</h2><ul>${step.torque.map((each) => html`<li>${told(each)}</li>`)}</ul>`}
    ${step.indication && html`<p class="indication">${told(step.indication)}</p>`}
    ${step.tools.length > 0 && html`<p class="tools"><b>${say("tools")}</b> ${step.tools.map(told).join(", ")}</p>`}
    <${Recorded} work=${work} step=${step} />
    ${!shown && html`<${Items} work=${work} step=${step} draft=${draft} />`}
    ${shown ? html`<${After} step=${step} draft=${draft} />` : html`<${Done} work=${work} step=${step} draft=${draft} />`}
    <${TitleBlock} work=${work} />
    <${Bar} at="" />
  </main>`;
}

function Early({ sheet, state, step }) {
  const open = openBefore(sheet, state, step);
  if (!open.length || isDone(state, step.id)) return null;
  return html`<section class="early"><h2><span aria-hidden="true">▲ </span>${say("early_title", { count: open.length })}</h2>
    <ul>${open.slice(0, 4).map((id) => html`<li><a href=${`#${link(id)}`}>
      ${stepOf(sheet, id).number} · ${told(stepOf(sheet, id).text)}</a></li>`)}</ul></section>`;
}
const link = (id) => `${location.hash.split("/").slice(0, 3).join("/").slice(1)}/step/${encodeURIComponent(id)}`;

/** What speaks against calling a step done: asked once, and then recorded all the same. */
function doubts(work, step, draft) {
  const { sheet, state } = work;
  const found = [];
  const open = openBefore(sheet, state, step);
  if (open.length) found.push(say("doubt_early", { count: open.length }));
  const holds = step.holds.filter((hold) => holdState(work, step, hold.kind) !== "seen");
  if (holds.length) found.push(say("doubt_hold"));
  const empty = missing(state, step).filter((item) => !isFilled(item, draft));
  empty.forEach((item) => found.push(say("doubt_missing", { what: told(item.what) })));
  return found;
}

function Done({ work, step, draft }) {
  const found = doubts(work, step, draft);
  const filled = step.items.some((item) => isFilled(item, draft));
  const press = () => {
    if (found.length && !draft.asked) {
      draft.asked = true;
      ui.draw();
      document.querySelector(".doubts")?.scrollIntoView({ block: "center" });
    } else finish(work, step, draft, true);
  };
  return html`${filled && found.length > 0 && html`<${Button} kind="quick wide" on=${() => finish(work, step, draft, false)}>${say("save_part")}<//>`}
    <section class="finish">${draft.asked && found.length > 0 && html`<div class="doubts" role="alert"><h2>${say("doubts")}</h2>
      <ul>${found.map((each) => html`<li>${each}</li>`)}</ul></div>`}
    <div class="actions">
      <${Button} kind="problem" on=${() => go(`job/${work.job}/problem/${encodeURIComponent(step.id)}`)}>
        <span aria-hidden="true">✕ </span>${say("problem")}<//>
      <${Button} kind="done" on=${press}><span aria-hidden="true">✓ </span>
        ${draft.asked && found.length ? say("done_anyway") : filled ? say("save_done") : say("done")}<//>
    </div></section>`;
}

/** Record what was filled in, and that the step is done; then the next step, or what does not hold. */
async function finish(work, step, draft, done) {
  const lines = linesOfDraft(step, draft);
  const went = await attempt(async () => {
    for (const [place, line] of lines.entries()) {
      const last = done && place === lines.length - 1;
      await record("reading", step.id, last ? { ...line, done: true } : line);
      line.values.filter((each) => draft.values[each.item]?.value === each.value).forEach((each) => delete draft.values[each.item]);
    }
    if (done && !lines.length) await record("done", step.id);
    for (const each of draft.wrong ?? []) await record("problem", step.id, { kind: "not as it should be", text: each });
    if (done) dropDraft(step.id);
  }, done ? say("saved_done", { number: step.number }) : say("saved"));
  if (!went || !done) return;
  const wrong = step.items.some((item) => ["fail", "cannot tell"].includes(work.state.work.items[item.id].word)
    && work.state.work.items[item.id].state !== "open");
  const said = ui.said;
  go(wrong ? `job/${work.job}/step/${encodeURIComponent(step.id)}` : `job/${work.job}`);
  saying(said);
  ui.draw();
}

function After({ step, draft }) {
  const again = () => {
    draft.again = true;
    ui.draw();
  };
  return html`<section class="finish"><div class="actions">
    <${Button} kind="problem" on=${() => go(`job/${jobId()}/problem/${encodeURIComponent(step.id)}`)}>
      <span aria-hidden="true">✕ </span>${say("problem")}<//>
    <${Button} on=${again}>${say("record_again")}<//>
    <${Button} kind="done" on=${() => go(`job/${jobId()}`)}>${say("go_on")}<//>
  </div></section>`;
}
const jobId = () => location.hash.split("/")[2];
