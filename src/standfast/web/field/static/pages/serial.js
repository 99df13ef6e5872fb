// A serial number: read by the camera, or typed twice, which is its check.
import { html } from "../html.js";
import { Button } from "../parts.js";
import { Scanner } from "../scan.js";
import { attempt, ui } from "../ui.js";
import { counting } from "../view.js";
import { record } from "../work.js";
import { say, told } from "../words.js";

export function SerialField({ work, step, item, draft }) {
  const one = ((draft.serials ??= {})[item.id] ??= { text: "", again: "", scans: false });
  const set = (change) => {
    Object.assign(one, change);
    ui.draw();
  };
  const have = counting(work.state, item.id);
  const save = (data) => attempt(async () => {
    await record("scan", step.id, { item: item.id, ...data });
    delete draft.serials[item.id];
  }, say("saved"));
  const twice = have.some((each) => each.value === one.text.trim());
  const same = one.text.trim() !== "" && one.text.trim() === one.again.trim();
  const id = `f-${item.id}`;
  return html`<fieldset class="field"><legend>${told(item.what)}</legend>
    ${item.count > 1 && html`<p class="count">${say("serials_of", { done: have.length, all: item.count })}</p>`}
    ${one.scans
      ? html`<${Scanner} close=${() => set({ scans: false })}
          on=${({ text, symbology }) => save({ text, symbology, typed: false })} />`
      : html`<${Button} kind="quick wide" on=${() => set({ scans: true })}>${say("scan_start")}<//>`}
    <label>${say("serial_typed")}<input id=${id} autocomplete="off" autocapitalize="characters" spellcheck=${false}
      value=${one.text} onInput=${(event) => set({ text: event.target.value })} /></label>
    ${one.text && html`<label>${say("serial_again")}<input id=${`${id}-again`} autocomplete="off" autocapitalize="characters"
      spellcheck=${false} value=${one.again} onInput=${(event) => set({ again: event.target.value })} /></label>`}
    ${one.again && !same && html`<p class="verdict cannot-tell"><span class="shape" aria-hidden="true">?</span><b>${say("serial_differs")}</b></p>`}
    ${twice && html`<p class="verdict cannot-tell"><span class="shape" aria-hidden="true">?</span><b>${say("serial_twice")}</b></p>`}
    ${same && !twice && html`<${Button} kind="done" on=${() => save({ text: one.text.trim(), symbology: "", typed: true, check: true })}>
      <span aria-hidden="true">✓ </span>${say("serial_save")}<//>`}
  </fieldset>`;
}
