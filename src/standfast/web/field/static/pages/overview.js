// Every step of the job with its state, and what is unsafe or untested as the office last told it.
import { html } from "../html.js";
import { Bar, Button, Fault, Head, Overdue, Said, StepMark, TitleBlock } from "../parts.js";
import { attempt, hasDrafts } from "../ui.js";
import { disputes } from "../view.js";
import { takeUp } from "../work.js";
import { say, told, when } from "../words.js";
import { partOf } from "./step.js";

export function Overview({ work }) {
  const { sheet, state } = work;
  const parts = [...new Set(sheet.steps.map((step) => step.part))];
  const open = disputes(sheet, state);
  return html`<main><${Head} title=${say("all_title")} above=${work.title} />
    <${Fault} /><${Said} />
    ${work.newer && html`<section class="early"><h2>${say("newer_title")}</h2><p>${say("newer_text")}</p>
      <${Button} kind="quick wide" on=${() => attempt(takeUp, say("saved"))}>${say("newer_take")}<//>
      ${hasDrafts() && html`<p class="limit">${say("drafts_open")}</p>`}</section>`}
    <${Overdue} work=${work} /><${Unsafe} work=${work} />
    ${open.length > 0 && html`<section class="early"><h2><span aria-hidden="true">≠ </span>${say("disputes_title")}</h2>
      <a class="go" href=${`#/job/${work.job}/disputes`}>${say("disputes_count", { count: open.length })}</a></section>`}
    ${sheet.rules?.length > 0 && html`<details><summary>${say("rules_title")}</summary>
      <ul>${sheet.rules.map((each) => html`<li>${told(each)}</li>`)}</ul></details>`}
    ${parts.map((part) => {
      const steps = sheet.steps.filter((step) => step.part === part);
      return html`<h2>${partOf(steps[0])}</h2><ol class="steps">
        ${steps.map((step) => html`<li><a href=${`#/job/${work.job}/step/${encodeURIComponent(step.id)}`}>
          <span class="number">${step.number}</span>
          <span class="text">${told(step.text)}</span>
          <${StepMark} step=${state.work.steps[step.id]} /></a></li>`)}</ol>`;
    })}
    <${TitleBlock} work=${work} /><${Bar} at="all" />
  </main>`;
}

/** What the office worked out from what was really done: it alone replays the isolation. */
function Unsafe({ work }) {
  const unsafe = work.told?.state?.unsafe ?? [];
  if (!unsafe.length) return null;
  return html`<section class="fault"><h2><span aria-hidden="true">⚠ </span>${say("unsafe_title")}</h2>
    <p>${say("unsafe_at", { when: when(work.told.at) })}</p>
    <ul>${unsafe.map((each) => html`<li>${told(each.text)}</li>`)}</ul></section>`;
}
