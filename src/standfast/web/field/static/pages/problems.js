// The punch list: what is not as it should be, and how it was put right.
import { html } from "../html.js";
import { Bar, Button, Fault, Head, Said, TitleBlock } from "../parts.js";
import { photoOf } from "../media.js";
import { attempt, draftOf, dropDraft, go, saying, ui } from "../ui.js";
import { problems, stepOf } from "../view.js";
import { person, record } from "../work.js";
import { say } from "../words.js";
import { Camera, Photo } from "./photo.js";

const KINDS = [
  ["damaged", "kind_damaged"], ["missing part", "kind_missing"], ["differs from the drawing", "kind_differs"],
  ["not safe", "kind_unsafe"], ["not as it should be", "kind_wrong"], ["other", "kind_other"],
];
const kindWord = (kind) => say(KINDS.find(([each]) => each === kind)?.[1] ?? "kind_other");

/** Note a problem, at a step or at none. */
export function Problem({ work, step }) {
  const key = `problem ${step?.id ?? ""}`;
  const draft = (draftOf(key).problem ??= { kind: "", text: "", photo: null });
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const save = async () => {
    const went = await attempt(async () => {
      const data = { kind: draft.kind, text: draft.text.trim() };
      if (draft.photo) data.sha = draft.photo.sha;
      await record("problem", step?.id ?? "", data, draft.photo ? [draft.photo] : []);
      dropDraft(key);
    }, say("saved_problem"));
    if (!went) return;
    const said = ui.said;
    go(step ? `job/${work.job}/step/${encodeURIComponent(step.id)}` : `job/${work.job}/problems`);
    saying(said);
    ui.draw();
  };
  return html`<main><${Head} title=${say("problem_title")} above=${step ? say("at_step", { number: step.number }) : work.title} />
    <${Fault} />
    <fieldset class="field"><legend>${say("problem_kind")}</legend><div class="entry wrap">
      ${KINDS.map(([kind, word]) => html`<label class="choice"><input type="radio" name="kind" checked=${draft.kind === kind}
        onChange=${() => set({ kind })} /><span>${say(word)}</span></label>`)}</div></fieldset>
    <label class="long">${say("problem_text")}<textarea rows="4" maxlength="4000" value=${draft.text}
      onInput=${(event) => set({ text: event.target.value })}></textarea></label>
    <${Camera} id="problem-photo" label=${draft.photo ? say("photo_again") : say("photo_add")}
      on=${(file) => attempt(async () => set({ photo: await photoOf(file) }))} />
    ${draft.photo && html`<p class="limit">${say("photo_ready")}</p>`}
    <div class="actions"><${Button} on=${() => history.back()}>${say("leave")}<//>
      ${draft.kind && draft.text.trim() && html`<${Button} kind="done" on=${save}><span aria-hidden="true">✓ </span>${say("problem_save")}<//>`}</div>
    <${TitleBlock} work=${work} /><${Bar} at="problems" />
  </main>`;
}

export function Problems({ work }) {
  const open = problems(work.state, "open");
  const closed = problems(work.state, "closed");
  return html`<main><${Head} title=${say("problems_title")} above=${work.title} />
    <${Fault} /><${Said} />
    <${Button} kind="quick wide" on=${() => go(`job/${work.job}/problem`)}>${say("problem_new")}<//>
    ${!open.length && html`<p>${say("problems_none")}</p>`}
    ${open.map(([id, each]) => html`<${One} key=${id} work=${work} id=${id} each=${each} />`)}
    ${closed.length > 0 && html`<h2>${say("problems_closed")}</h2>`}
    ${closed.map(([id, each]) => html`<article key=${id} class="gone"><h3>${kindWord(each.kind)}</h3><p>${each.text}</p></article>`)}
    <${TitleBlock} work=${work} /><${Bar} at="problems" />
  </main>`;
}

function One({ work, id, each }) {
  const step = stepOf(work.sheet, each.step);
  const draft = draftOf(`close ${id}`);
  const set = (text) => {
    draft.text = text;
    ui.draw();
  };
  const close = () => attempt(async () => {
    await record("closed", each.step, { of: id, text: draft.text.trim() });
    dropDraft(`close ${id}`);
  }, say("saved"));
  return html`<article><h3><span aria-hidden="true">✕ </span>${kindWord(each.kind)}</h3><p>${each.text}</p>
    <p class="by">${step && html`<a href=${`#/job/${work.job}/step/${encodeURIComponent(step.id)}`}>${say("at_step", { number: step.number })}</a> · `}
      ${each.by ? person(each.by).name : say("nobody")}</p>
    ${each.photo && html`<${Photo} sha=${each.photo} />`}
    <label>${say("problem_put_right")}<input value=${draft.text ?? ""} maxlength="4000" onInput=${(event) => set(event.target.value)} /></label>
    ${draft.text?.trim() && html`<${Button} kind="done" on=${close}><span aria-hidden="true">✓ </span>${say("problem_close")}<//>`}
  </article>`;
}
