// The record as a whole: what is on this tablet only, a copy that leaves it, and how far another tablet's log stands.
import { copyOf, handOut, takeCopy } from "../copy.js";
import { codeOf, headCode, headIn } from "../codes.js";
import { html, useEffect, useState } from "../html.js";
import { headOf } from "../log.js";
import { Bar, Button, ClockOff, Fault, Head, Said, TitleBlock, Unknown, contactText } from "../parts.js";
import { Scanner } from "../scan.js";
import { contact, send } from "../sync.js";
import { here } from "../tablet.js";
import { attempt, draftOf, go, ui } from "../ui.js";
import { record, reload } from "../work.js";
import { say } from "../words.js";

export function RecordPage({ work }) {
  const { state: office, waits } = contactText();
  const { logs } = work.state;
  const name = `standfast-${work.job.slice(0, 8)}-${here().name.replace(/[^\p{L}\p{N}]+/gu, "-")}.zip`;
  const copy = () => attempt(async () => handOut(await copyOf(work), name), say("copy_made", { name }));
  const bring = (event) => {
    const [file] = event.target.files;
    event.target.value = "";
    if (file) attempt(async () => {
      const { added, wrong } = await takeCopy(work.job, file);
      await reload();
      if (wrong) throw new Error(say("copy_wrong", { count: wrong }));
      ui.added = added;
    }, say("copy_taken"));
  };
  return html`<main><${Head} title=${say("record_title")} above=${work.title} />
    <${Fault} /><${Said} /><${Unknown} /><${ClockOff} />
    <section><h2>${say("record_office")}</h2><p><b>${waits}</b></p><p>${office}</p>
      <${Button} kind="quick wide" on=${send}>${say("send_now")}<//></section>
    <section><h2>${say("copy_title")}</h2><p>${say("copy_text")}</p>
      <${Button} kind="quick wide" on=${copy}>${say("copy_make")}<//>
      <label class="camera"><input type="file" id="copy-in" accept=".zip,application/zip" onChange=${bring} /><span>${say("copy_bring")}</span></label></section>
    <${Witness} work=${work} />
    <section><h2>${say("record_logs")}</h2><ul>${Object.entries(logs.devices).map(([dev, each]) => html`<li>
      ${say("tablet_of", { dev: dev.slice(0, 8) })}${dev === here().dev && ` (${say("this_tablet")})`}: ${say("events", { count: each.events })}</li>`)}</ul>
      ${logs.gaps.map((gap) => html`<p class="verdict cannot-tell"><span class="shape" aria-hidden="true">?</span>
        <b>${say("gap", { dev: gap.dev.slice(0, 8), first: gap.first, last: gap.last })}</b></p>`)}
      ${[...logs.forks, ...contact.forks.filter((fork) => fork.job === work.job)].map((fork) => html`<p class="verdict fail"><span class="shape" aria-hidden="true">✕</span>
        <b>${say("fork", { dev: fork.dev.slice(0, 8), seq: fork.seq })}</b></p>`)}</section>
    <div class="actions"><${Button} on=${() => go(`job/${work.job}/sign`)}>${say("nav_sign")}<//>
      <${Button} on=${() => go(`job/${work.job}/people`)}>${say("people_title")}<//>
      <${Button} on=${() => go("settings")}>${say("settings_title")}<//>
      <${Button} on=${() => go("")}>${say("today_title")}<//></div>
    <${TitleBlock} work=${work} /><${Bar} at="record" />
  </main>`;
}

/** The head of this log as a code for the other tablet, and the other's head read from its screen. */
function Witness({ work }) {
  const [code, setCode] = useState("");
  const draft = draftOf("witness");
  const seq = work.seen[here().dev];
  useEffect(() => {
    let over = false;
    headOf(work.job).then((head) => codeOf(headCode(work.job, here().dev, head))).then((svg) => !over && setCode(svg));
    return () => (over = true);
  }, [seq]);
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const read = ({ text }) => attempt(async () => {
    set({ scans: false });
    const head = headIn(text);
    if (!head || head.job !== work.job || head.dev === here().dev) throw new Error(say("witness_other"));
    await record("witness", "", { dev: head.dev, seq: head.seq, hash: head.hash });
  }, say("witness_saved"));
  return html`<section><h2>${say("witness_title")}</h2><p>${say("witness_text")}</p>
    ${code && html`<img class="code" alt=${say("witness_code", { seq })} src=${`data:image/svg+xml,${encodeURIComponent(code)}`} />`}
    ${draft.scans
      ? html`<${Scanner} on=${read} close=${() => set({ scans: false })} />`
      : html`<${Button} kind="quick wide" on=${() => set({ scans: true })}>${say("witness_scan")}<//>`}
  </section>`;
}
