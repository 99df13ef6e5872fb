// The door of the field pages: opens the store, keeps the shell, and shows the page of the place after the #.
import { calling, drawWith } from "./alarm.js";
import { html, render } from "./html.js";
import { recall } from "./log.js";
import { Button, Fault } from "./parts.js";
import { Disputes } from "./pages/disputes.js";
import { Enrol } from "./pages/enrol.js";
import { Lost } from "./pages/lost.js";
import { Overview } from "./pages/overview.js";
import { People } from "./pages/people.js";
import { Problem, Problems } from "./pages/problems.js";
import { RecordPage } from "./pages/record.js";
import { Settings } from "./pages/settings.js";
import { Sign } from "./pages/sign.js";
import { Step } from "./pages/step.js";
import { Today } from "./pages/today.js";
import { begin as beginSync } from "./sync.js";
import { here, leave, opened, storage } from "./tablet.js";
import { go, hasDrafts, place, toldOf, ui } from "./ui.js";
import { next, stepOf } from "./view.js";
import { clockAt, closeJob, job, listen, openJob, reload } from "./work.js";
import { say, speak } from "./words.js";

const root = document.getElementById("page");
let jobs = [];
let code = "";
let isOpen = false;

function draw() {
  render(html`<${Page} />`, root);
}

function Page() {
  // A store that did not open is no empty store: nobody enrols here before it was read.
  if (!isOpen) return html`<main><${Fault} /><${Button} kind="quick wide" on=${() => location.reload()}>${say("load_again")}<//></main>`;
  if (ui.lost) return html`<${Lost} lost=${ui.lost} begin=${anew} />`;
  const [where, id, page, ...more] = place();
  if (!here() || where === "enrol") return html`<${Enrol} key=${code} code=${code} />`;
  if (where === "settings") return html`<${Settings} />`;
  if (where !== "job") return html`<${Today} jobs=${jobs} />`;
  const work = job();
  if (!work?.state || work.job !== id) return html`<main><${Fault} /><p class="starting">${say("opening")}</p></main>`;
  return html`<${Calls} work=${work} /><${JobPage} work=${work} page=${page} more=${more} />`;
}

function JobPage({ work, page, more: [id] }) {
  if (!work.user || page === "people") return html`<${People} work=${work} />`;
  const step = id ? stepOf(work.sheet, id) : next(work.sheet, work.state);
  if (page === "all") return html`<${Overview} work=${work} />`;
  if (page === "problems") return html`<${Problems} work=${work} />`;
  if (page === "problem") return html`<${Problem} work=${work} step=${id ? step : null} />`;
  if (page === "disputes") return html`<${Disputes} work=${work} />`;
  if (page === "record") return html`<${RecordPage} work=${work} />`;
  if (page === "sign" || !step) return html`<${Sign} work=${work} />`;
  return html`<${Step} work=${work} step=${step} />`;
}

/** A time that is over calls on every page of the job, with the way to its step. */
function Calls({ work }) {
  const over = new Set(calling());
  const steps = work.sheet.steps.filter((step) => step.items.some((item) => over.has(item.id)));
  return steps.map((step) => html`<a class="calls" role="alert" href=${`#/job/${work.job}/step/${encodeURIComponent(step.id)}`}>
    <span aria-hidden="true">▲ </span>${say("time_over", { number: step.number })}</a>`);
}

async function follow() {
  const found = /^#enrol=(.+)$/.exec(location.hash);
  if (found) {
    code = decodeURIComponent(found[1]);
    history.replaceState(null, "", "#/enrol");
  }
  const [where, id] = place();
  if (where !== "job") closeJob();
  else if (here() && job()?.job !== id && !(await openJob(id))) go("");
  jobs = (await recall("jobs")) ?? [];
  draw();
  document.querySelector("h1")?.focus({ preventScroll: true });
}

/** A person has told the office of the loss: this tablet enrols as a new one. */
async function anew() {
  await leave(ui.lost.dev);
  ui.lost = null;
  location.reload();
}

/** One version of the shell; a newer one is taken up by a button, between two jobs. */
async function keepShell() {
  if (!("serviceWorker" in navigator)) return;
  const had = Boolean(navigator.serviceWorker.controller);
  const kept = await navigator.serviceWorker.register("/field/sw.js", { scope: "/field/" });
  const offer = (worker) => {
    ui.update = () => worker.postMessage("take up");
    draw();
  };
  if (kept.waiting && had) offer(kept.waiting);
  kept.addEventListener("updatefound", () => {
    const worker = kept.installing;
    worker.addEventListener("statechange", () => worker.state === "installed" && navigator.serviceWorker.controller && offer(worker));
  });
  // Another page of this tablet took it up: what is typed in this one is not thrown away for that.
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (had && !hasDrafts()) location.reload();
    else if (had) offerReload();
  });
}

function offerReload() {
  ui.update = () => location.reload();
  draw();
}

async function start() {
  root.replaceChildren();
  ui.draw = draw;
  drawWith(draw);
  listen(draw);
  await speak(navigator.language.startsWith("es") ? "es" : "en");
  const chosen = await recall("language");
  if (chosen) await speak(chosen);
  document.title = say("title");
  ui.lost = await opened();
  isOpen = true;
  self.addEventListener("hashchange", () => follow().catch(broken));
  self.addEventListener("beforeunload", (event) => hasDrafts() && job() && event.preventDefault());
  await follow();
  if (ui.lost) return;
  if (here()) ui.kept = (await storage()).kept;
  beginSync({
    device: here,
    changed: draw,
    came: async (id) => {
      jobs = (await recall("jobs")) ?? [];
      if (job()?.job === id) await reload();
      else draw();
    },
    lost: (id, told) => lose(id, told),
    clock: clockAt,
  });
  await keepShell();
}

/** The office has more of this tablet's log than the tablet itself, or another text for one of its places. */
function lose(id, { back, acked }) {
  ui.lost = { dev: here().dev, jobs: [{ job: id, was: acked, here: back ? job()?.seen?.[here().dev] ?? 0 : acked }] };
  draw();
}

function broken(error) {
  ui.fault = toldOf(error);
  draw();
}

start().catch(broken);
