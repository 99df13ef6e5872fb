// Parts of several pages: marks of a state (a word and a shape, never a colour alone), the title block, faults.
import { html } from "./html.js";
import { contact, overdue } from "./sync.js";
import { here } from "./tablet.js";
import { go, ui } from "./ui.js";
import { doneCount } from "./view.js";
import { person } from "./work.js";
import { say, told, when } from "./words.js";

const SHAPES = { pass: "✓", fail: "✕", "cannot tell": "?", recorded: "•", disputed: "≠", part: "◐", open: "□" };
const WORDS = { pass: "word_pass", fail: "word_fail", "cannot tell": "word_cannot_tell", recorded: "word_recorded" };
const REASONS = {
  "no value": "reason_no_value", "limit not readable": "reason_limit", "wrong unit": "reason_unit",
  "over range": "reason_over", "not a number": "reason_number", "uncertainty not readable": "reason_uncertainty",
  "near the limit": "reason_near", "too early": "reason_early", "not seen": "reason_not_seen",
  "check failed": "reason_check", "no photo": "reason_photo",
};

/** A verdict: its shape, its word, why. */
export const Verdict = ({ word, reason = "" }) => html`
  <p class=${`verdict ${word.replace(" ", "-")}`}>
    <span class="shape" aria-hidden="true">${SHAPES[word]}</span>
    <span><b>${say(WORDS[word])}</b>${reason ? html` — ${say(REASONS[reason])}` : ""}</span>
  </p>`;

const STEP = { done: ["■", "step_done"], early: ["▲", "step_early"], void: ["▢", "step_void"], open: ["□", "step_open"] };

/** The state of a step: its shape and its word. */
export function StepMark({ step }) {
  const [shape, word] = step.again ? ["↻", "step_again"] : step.override.length ? ["◆", "step_override"] : STEP[step.state];
  return html`<span class="mark"><span aria-hidden="true" class="shape">${shape}</span> ${say(word)}</span>`;
}

/** What went wrong: it stays until something went right. */
export const Fault = () => ui.fault && html`
  <div class="fault" role="alert">
    <h2><span aria-hidden="true">✕ </span>${ui.fault.what}</h2>
    ${ui.fault.why && html`<p class="why">${ui.fault.why}</p>`}
    ${ui.fault.todo && html`<p><b>${ui.fault.todo}</b></p>`}
  </div>`;

/** What was saved last, read aloud by a screen reader. */
export const Said = () => {
  const said = ui.saidAt === location.hash ? ui.said : "";
  return html`<p class=${said ? "said" : "said empty"} role="status">${said && html`<span aria-hidden="true">✓ </span>${said}`}</p>`;
};

/** How much of the record is on this tablet only. */
export function contactText() {
  const state = {
    never: say("contact_never"), busy: say("contact_busy"), done: say("contact_done", { when: when(contact.at) }),
    "no server": say("contact_none"), refused: say("contact_refused", { what: contact.why }),
    "no room": say("contact_no_room"), stuck: say("contact_stuck", { what: contact.why }),
  }[contact.state];
  if (!contact.counted) return { state, waits: "" };
  const waits = contact.waiting || contact.photos
    ? say("contact_waits", { events: contact.waiting, photos: contact.photos })
    : say("contact_all");
  return { state, waits };
}

/** The office does not know this tablet: how it goes on. */
export const Unknown = () => contact.status === 401 && html`<section class="early"><h2><span aria-hidden="true">▲ </span>${say("unknown_title")}</h2>
  <p>${say("unknown_text")}</p><${Button} kind="quick wide" on=${() => go("enrol")}>${say("unknown_do")}<//></section>`;

/** A clock further off than this is told on every page that asks for it. */
export const CLOCK_MS = 120_000;

/** The clock of the tablet is wrong: nothing is lost by that, but what is read off it is. */
export const ClockOff = () => Math.abs(contact.skew) >= CLOCK_MS && html`<p class="verdict cannot-tell"><span class="shape" aria-hidden="true">?</span>
  <b>${say("clock_off", { minutes: Math.round(contact.skew / 60_000) })}</b></p>`;

/** Asks for a copy where nothing was sent for hours. */
export const Overdue = ({ work }) => overdue() && html`<section class="early"><h2><span aria-hidden="true">▲ </span>${say("overdue_title")}</h2>
  <p>${contactText().waits}</p><p>${work ? html`<a href=${`#/job/${work.job}/record`}>${say("copy_make")}</a>` : say("copy_text")}</p></section>`;

/** A button of at least the size of a glove. */
export const Button = ({ on, kind = "plain", children, ...more }) =>
  html`<button type="button" class=${kind} onClick=${on} ...${more}>${children}</button>`;

/** The pages of a job, always within reach of a thumb. */
export const Bar = ({ at }) => {
  const pages = [["", "nav_next"], ["all", "nav_all"], ["problems", "nav_problems"], ["record", "nav_record"]];
  return html`<nav class="bar" aria-label=${say("nav")}>
    ${pages.map(([path, word]) => html`
      <button type="button" aria-current=${at === path ? "page" : undefined}
        onClick=${() => go(`job/${place()}${path && `/${path}`}`)}>${say(word)}</button>`)}
  </nav>`;
};
const place = () => location.hash.split("/")[2];

/** The title block of a drawing sheet: which job, which revision, who, how far, what is on this tablet only. */
export function TitleBlock({ work }) {
  const { sheet, state, sha, user } = work;
  const { state: office, waits } = contactText();
  const cell = (word, value) => html`<div><dt>${say(word)}</dt><dd>${value}</dd></div>`;
  return html`<dl class="block">
    ${cell("block_job", sheet.job.name)}
    ${sheet.job.address && cell("block_address", sheet.job.address)}
    ${cell("block_revision", `${sheet.job.revision} · ${sheet.job.date}`)}
    ${cell("block_sheet", sha.slice(0, 8))}
    ${cell("block_done", say("block_done_of", { done: doneCount(sheet, state), all: sheet.steps.length }))}
    ${cell("block_by", html`<a href=${`#/job/${work.job}/people`}>${user ? person(user).name : say("nobody")}</a>`)}
    ${cell("block_tablet", here().name)}
    ${cell("block_office", html`${office} ${waits}`)}
  </dl>`;
}

/** A line that a page begins with. */
export const Head = ({ title, above = "", long = false }) => html`<header>${above && html`<p class="above">${above}</p>`}<h1 tabindex="-1" class=${long ? "long" : ""}>${title}</h1></header>`;

/** A drawing of the sheet, as wide as the screen or large. */
export function Drawing({ drawing }) {
  const svg = told(drawing.svg);
  const title = told(drawing.title);
  const isLarge = large.has(svg);
  const turn = () => {
    if (!large.delete(svg)) large.add(svg);
    ui.draw();
  };
  return html`<details class="drawing" open><summary>${say("drawing", { title: title.split(":")[0] })}</summary>
    <div class=${isLarge ? "sight large" : "sight"} tabindex=${isLarge ? 0 : -1} role="group" aria-label=${title}>
      <img alt=${title} src=${addressOf(svg)} /></div>
    <${Button} kind="quick wide" on=${turn}>${say(isLarge ? "drawing_small" : "drawing_large")}<//></details>`;
}

/** Drawings that are shown large; each to be moved under the finger. */
const large = new Set();

const addresses = new Map();
function addressOf(svg) {
  if (!addresses.has(svg)) addresses.set(svg, URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })));
  return addresses.get(svg);
}
