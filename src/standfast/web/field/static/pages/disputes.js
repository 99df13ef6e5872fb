// Two people recorded one thing differently, neither knowing of the other: both stay, and somebody says which counts.
import { html } from "../html.js";
import { Bar, Button, Fault, Head, Said, TitleBlock, Verdict } from "../parts.js";
import { attempt, draftOf, dropDraft, ui } from "../ui.js";
import { counting, disputes } from "../view.js";
import { person, record } from "../work.js";
import { say, told } from "../words.js";

export function Disputes({ work }) {
  const found = disputes(work.sheet, work.state);
  return html`<main><${Head} title=${say("disputes_title")} above=${work.title} />
    <${Fault} /><${Said} />
    <p>${found.length ? say("disputes_text") : say("disputes_none")}</p>
    ${found.map(({ step, item }) => html`<${One} key=${item.id} work=${work} step=${step} item=${item} />`)}
    <${TitleBlock} work=${work} /><${Bar} at="all" />
  </main>`;
}

function One({ work, step, item }) {
  const values = counting(work.state, item.id);
  const draft = draftOf(`dispute ${item.id}`);
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const save = () => attempt(async () => {
    const data = { of: values.map((each) => each.event), keep: draft.keep, reason: draft.reason.trim() };
    await record("resolve", step.id, data);
    dropDraft(`dispute ${item.id}`);
  }, say("saved"));
  return html`<fieldset class="field"><legend>${say("at_step", { number: step.number })} · ${told(item.what)}</legend>
    <p class="limit">${item.limit ? told(item.limit.text) : say("no_limit")}</p>
    <a class="go" href=${`#/job/${work.job}/step/${encodeURIComponent(step.id)}`}>${say("record_again")}</a>
    ${values.map((each) => html`<label class="choice tall"><input type="radio" name=${`d-${item.id}`} checked=${draft.keep === each.event}
      onChange=${() => set({ keep: each.event })} />
      <span><b class="figure">${each.value} ${each.unit}</b> — ${each.by ? person(each.by).name : say("nobody")}, ${say("tablet_of", { dev: each.dev.slice(0, 8) })}
      ${each.exceptions.map((other) => html`<br />${other.which}: ${other.value} ${each.unit}`)}
      <${Verdict} word=${each.word} reason=${each.reason} /></span></label>`)}
    <label>${say("dispute_reason")}<input value=${draft.reason ?? ""} maxlength="2000" onInput=${(event) => set({ reason: event.target.value })} /></label>
    ${draft.keep && draft.reason?.trim() && html`<${Button} kind="done" on=${save}><span aria-hidden="true">✓ </span>${say("dispute_save")}<//>`}
  </fieldset>`;
}
