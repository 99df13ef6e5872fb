// What is recorded of a step already: every value with its verdict and who told it; what no longer counts stays visible.
import { html } from "../html.js";
import { Button, Verdict } from "../parts.js";
import { attempt, ui } from "../ui.js";
import { person, record } from "../work.js";
import { say, told } from "../words.js";
import { Photo } from "./photo.js";

const voids = new Map();

export function Recorded({ work, step }) {
  const { state } = work;
  const own = state.work.steps[step.id];
  const items = step.items.filter((item) => state.work.items[item.id].values.length);
  if (!own.done.length && !items.length) return null;
  return html`<details class="recorded" open><summary>${say("recorded_title")}</summary>
    <ul>${own.done.map((each) => html`<li class=${each.void ? "gone" : ""}>
      ${each.early ? say("recorded_early", { by: nameOf(each.by) }) : say("recorded_done", { by: nameOf(each.by) })}
      ${each.void && html` · ${say("voided")}`}<${Void} step=${step} id=${each.event} gone=${each.void} /></li>`)}</ul>
    ${items.map((item) => html`<${Values} work=${work} step=${step} item=${item} />`)}
  </details>`;
}

const nameOf = (card) => (card ? person(card).name : say("nobody"));

function Values({ work, step, item }) {
  const known = work.state.work.items[item.id];
  return html`<div class="values"><h3>${told(item.what)}</h3>
    ${known.state === "disputed" && html`<p class="verdict disputed"><span class="shape" aria-hidden="true">≠</span>
      <b>${say("disputed")}</b> <a href=${`#/job/${work.job}/disputes`}>${say("dispute_open")}</a></p>`}
    ${known.values.map((each) => html`<div class=${each.void || !each.counts ? "value gone" : "value"}>
      <p>${shown(item, each)} ${each.n > 1 && html`<span>${say("times", { count: each.n })}</span>`}
        <span class="by">${nameOf(each.by)}</span>
        ${each.void ? html`<b>${say("voided")}</b>` : !each.counts && html`<b>${say("superseded")}</b>`}</p>
      ${each.counts && ["pass", "fail", "cannot tell"].includes(each.word) && html`<${Verdict} word=${each.word} reason=${each.reason} />`}
      ${each.exceptions.map((other) => html`<p class="exception">${other.which || say("which_unnamed")}: ${other.value} ${each.unit}</p>`)}
      <${Void} step=${step} id=${each.event} gone=${each.void} /></div>`)}
  </div>`;
}

function shown(item, each) {
  if (item.kind === "photo") return html`<${Photo} sha=${each.value} />`;
  if (item.kind === "mark") return html`<b>${say(each.value === "yes" ? "yes" : "no")}</b>`;
  if (item.kind === "name") return html`<b>${nameOf(each.value)}</b>`;
  if (item.kind === "timer") return html`<b>${say(each.value === "seen" ? "seen" : "not_seen")}</b>`;
  return html`<b class="figure">${each.value} ${each.unit}</b>`;
}

/** A wrong entry is declared void with a reason; it stays. */
function Void({ step, id, gone }) {
  if (gone) return null;
  const reason = voids.get(id);
  const set = (text) => {
    if (text === null) voids.delete(id);
    else voids.set(id, text);
    ui.draw();
  };
  if (reason === undefined) return html`<${Button} kind="small" on=${() => set("")}>${say("void_begin")}<//>`;
  const save = async () => {
    if (await attempt(() => record("void", step.id, { of: id, reason: reason.trim() }), say("saved"))) set(null);
  };
  return html`<div class="void"><label>${say("void_reason")}<input value=${reason} maxlength="2000" onInput=${(event) => set(event.target.value)} /></label>
    <div class="actions"><${Button} on=${() => set(null)}>${say("leave")}<//>
    ${reason.trim() && html`<${Button} kind="problem" on=${save}>${say("void_save")}<//>`}</div></div>`;
}

