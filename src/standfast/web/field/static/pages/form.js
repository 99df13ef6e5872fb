// What a step asks to be recorded: a field for each item, large, with its verdict while it is typed.
import { compare } from "../compare.js";
import { html } from "../html.js";
import { kindsInWords } from "../toolkinds.js";
import { Button, Verdict } from "../parts.js";
import { today } from "../sync.js";
import { ui } from "../ui.js";
import { calibration, toolsFor, unitsOf } from "../view.js";
import { say, told } from "../words.js";
import { NameField } from "./namefield.js";
import { PhotoField } from "./photo.js";
import { SerialField } from "./serial.js";
import { TimerField } from "./timer.js";

const APART = { photo: PhotoField, serial: SerialField, timer: TimerField };
const KINDS = { reading: Reading, torque: Reading, mark: Mark, name: NameField };

/** The fields of a step, each test under its own heading. */
export function Items({ work, step, draft }) {
  let before = "";
  return html`<section class="items">
    ${step.items.map((item) => {
      const head = item.head ? `${item.test} · ${told(item.head)}` : "";
      const fresh = head && head !== before;
      before = head;
      const Field = APART[item.kind] ?? KINDS[item.kind];
      return html`${fresh && html`<div class="test"><h2>${head}</h2><p>${told(item.how)}</p></div>`}
        ${Field && html`<${Field} key=${item.id} work=${work} step=${step} item=${item} draft=${draft} />`}`;
    })}
    <${Tools} work=${work} step=${step} draft=${draft} />
  </section>`;
}

const valueOf = (draft, item) => (draft.values[item.id] ??= { value: "", exceptions: [] });
const set = (entry, change) => {
  Object.assign(entry, change);
  ui.draw();
};

/** Whether something stands in the field of an item and can be saved with the step. */
export const isFilled = (item, draft) => !APART[item.kind] && (draft.values[item.id]?.value ?? "") !== "";

/** The readings of a step as they are recorded, those of one instrument together. */
export function linesOfDraft(step, draft) {
  const groups = new Map();
  for (const item of step.items.filter((each) => isFilled(each, draft))) {
    const { value, exceptions } = draft.values[item.id];
    const tool = draft.tools[kindsOf(item)] ?? "";
    const one = { item: item.id, value, unit: unitOf(item, draft.values[item.id]) };
    if (item.count > 1) one.n = item.count;
    const others = exceptions.filter((each) => each.value !== "");
    if (others.length) one.exceptions = others.map(({ which, value: other }) => ({ which, value: other }));
    if (!groups.has(tool)) groups.set(tool, tool ? { values: [], tool } : { values: [] });
    groups.get(tool).values.push(one);
  }
  draft.wrong = step.items.filter((item) => item.kind === "mark" && draft.values[item.id]?.value === "no")
    .map((item) => told(item.what));
  return [...groups.values()];
}

const unitOf = (item, entry) => entry?.unit ?? unitsOf(item)[0];
const kindsOf = (item) => (item.tool_kind ?? []).join(" | ");
const RESISTANCE = ["Ω", "kΩ", "MΩ", "GΩ"];

/** Digits, one point, and what instruments show beside them; a comma is written as the point that it means. */
const typed = (text) => text.replace(",", ".").replace(/ol/i, "OL").replace(/[^0-9.>OL-]/g, "");

/** Take what was typed, and keep the verdict on it above the large buttons. */
function read(event, entry) {
  const field = event.target.closest("fieldset");
  set(entry, { value: typed(event.target.value) });
  requestAnimationFrame(() => field.querySelector(".verdict")?.scrollIntoView({ block: "nearest" }));
}

function Reading({ item, draft }) {
  const entry = valueOf(draft, item);
  const id = `f-${item.id}`;
  const unit = unitOf(item, entry);
  const verdict = entry.value && compare(entry.value, unit, item.limit, item.uncertainty);
  const settings = item.kind === "torque" && item.limit?.relation === "equal" ? [item.limit, ...(item.limit.also ?? [])] : [];
  return html`<fieldset class="field"><legend>${told(item.what)}</legend>
    ${item.count > 1 && html`<p class="count">${say("equal", { count: item.count })}</p>`}
    <p class="limit" id=${`${id}-limit`}>${item.limit ? told(item.limit.text) : item.told ? told(item.told) : say("no_limit")}
      ${item.limit?.source && html`<small>${told(item.limit.source)}</small>`}</p>
    <div class="entry">
      ${settings.map((each) => html`<${Button} kind="quick wide" on=${() => set(entry, { value: each.value, unit: each.unit })}>
        ${say("set_to", each)}<//>`)}
      <label class="typed"><span class="hidden">${told(item.what)}</span>
        <input id=${id} inputmode="decimal" autocomplete="off" enterkeyhint="next" value=${entry.value}
          aria-describedby=${`${id}-limit`} onInput=${(event) => read(event, entry)} /></label>
      <${Unit} item=${item} unit=${unit} entry=${entry} />
      ${RESISTANCE.includes(unit) && html`<${Button} kind="quick" on=${() => set(entry, { value: "OL" })}>${say("over_range")}<//>
        <${Button} kind="quick" aria-label=${say("more_than")} on=${() => set(entry, { value: entry.value.startsWith(">") ? entry.value.slice(1) : `>${entry.value}` })}>${">"}<//>`}
    </div>
    ${verdict && html`<${Verdict} word=${verdict[0]} reason=${verdict[1]} />`}
    ${item.count > 1 && html`<${Exceptions} item=${item} entry=${entry} id=${id} />`}
  </fieldset>`;
}

function Unit({ item, unit, entry }) {
  const units = unitsOf(item);
  if (units.length < 2) return html`<span class="unit">${unit}</span>`;
  return html`<label class="typed"><span class="hidden">${say("unit")}</span>
    <select onChange=${(event) => set(entry, { unit: event.target.value })}>
    ${units.map((each) => html`<option value=${each} selected=${each === unit}>${each}</option>`)}</select></label>`;
}

function Exceptions({ item, entry, id }) {
  const change = (place, changed) => set(entry, {
    exceptions: entry.exceptions.map((each, at) => (at === place ? { ...each, ...changed } : each)),
  });
  return html`${entry.exceptions.map((each, place) => html`<div class="entry exception">
      <label>${say("which")}<input id=${`${id}-which-${place}`} value=${each.which} autocomplete="off"
        onInput=${(event) => change(place, { which: event.target.value })} /></label>
      <label>${say("its_value")}<input id=${`${id}-other-${place}`} value=${each.value} inputmode="decimal" autocomplete="off"
        onInput=${(event) => change(place, { value: typed(event.target.value) })} /></label>
      ${each.value && html`<${Verdict} ...${verdictOf(item, each.value, unitOf(item, entry))} />`}
    </div>`)}
    ${entry.exceptions.length < item.count - 1 && html`<${Button} kind="quick"
      on=${() => set(entry, { exceptions: [...entry.exceptions, { which: "", value: "" }] })}>${say("one_differs")}<//>`}`;
}

const verdictOf = (item, value, unit) => {
  const [word, reason] = compare(value, unit, item.limit, item.uncertainty);
  return { word, reason };
};

function Mark({ item, draft }) {
  const entry = valueOf(draft, item);
  const choice = (value, shape, word) => html`<label class="choice">
    <input type="radio" name=${`f-${item.id}`} checked=${entry.value === value} onChange=${() => set(entry, { value })} />
    <span><span aria-hidden="true">${shape} </span>${say(word)}</span></label>`;
  return html`<fieldset class="field tick"><legend>${told(item.what)}</legend>
    ${item.told && html`<p class="limit">${told(item.told)}</p>`}
    <div class="entry">${choice("yes", "✓", "yes")}${choice("no", "✕", "no")}</div>
    ${entry.value === "no" && html`<p class="limit"><b>${say("no_becomes_problem")}</b></p>`}
  </fieldset>`;
}

/** The instrument that was picked last for some kinds: it stands there at the next step, in sight. */
const lastPicked = new Map();

/** Which instrument was used, once for each kind that the step asks for; its calibration against the day. */
function Tools({ work, step, draft }) {
  const kinds = new Map(step.items.filter((item) => item.tool_kind?.length).map((item) => [kindsOf(item), item.tool_kind]));
  const day = today();
  return [...kinds].map(([key, kind]) => {
    const tools = toolsFor(work.sheet, kind);
    draft.tools[key] ??= lastPicked.get(key) ?? "";
    const chosen = tools.find((tool) => tool.id === draft.tools[key]);
    const good = chosen && calibration(chosen, day);
    const pick = (event) => {
      draft.tools[key] = event.target.value;
      lastPicked.set(key, event.target.value);
      ui.draw();
    };
    return html`<fieldset class="field"><legend>${say("tool_used", { kinds: kindsInWords(kind) })}</legend>
      ${tools.length
        ? html`<label class="typed"><span class="hidden">${say("tool_used", { kinds: kindsInWords(kind) })}</span>
          <select onChange=${pick}><option value="">${say("tool_choose")}</option>
          ${tools.map((tool) => html`<option value=${tool.id} selected=${tool === chosen}>${tool.name} ${tool.serial}</option>`)}</select></label>`
        : html`<label>${say("tool_typed")}<input value=${draft.tools[key]} autocomplete="off" onInput=${pick} /></label>`}
      ${good === "over" && html`<p class="verdict fail"><span class="shape" aria-hidden="true">✕</span><b>${say("tool_over", { until: chosen.calibrated_until })}</b></p>`}
      ${good === "unknown" && html`<p class="verdict cannot-tell"><span class="shape" aria-hidden="true">?</span><b>${say("tool_unknown")}</b></p>`}
      ${good === "good" && html`<p class="limit">${say("tool_good", { until: chosen.calibrated_until })}</p>`}
    </fieldset>`;
  });
}

