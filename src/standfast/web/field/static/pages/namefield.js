// A name that a step asks for: the card of a person of the job, or a new one. The name itself stands in no event.
import { html } from "../html.js";
import { go, ui } from "../ui.js";
import { person } from "../work.js";
import { say, told } from "../words.js";

export function NameField({ work, item, draft }) {
  const entry = (draft.values[item.id] ??= { value: "", exceptions: [] });
  const pick = (event) => {
    if (event.target.value === "new") {
      go(`job/${work.job}/people`);
      return;
    }
    entry.value = event.target.value;
    ui.draw();
  };
  return html`<fieldset class="field"><legend>${told(item.what)}</legend>
    <label class="typed"><span class="hidden">${told(item.what)}</span>
      <select onChange=${pick}>
        <option value="">${say("person_choose")}</option>
        ${Object.keys(work.cards).map((card) => html`<option value=${card} selected=${card === entry.value}>${person(card).name}</option>`)}
        <option value="new">${say("person_new")}</option>
      </select></label></fieldset>`;
}
