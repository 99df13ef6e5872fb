// The jobs that the office handed to this tablet.
import { html } from "../html.js";
import { Button, ClockOff, Fault, Head, Overdue, Said, Unknown, contactText } from "../parts.js";
import { send } from "../sync.js";
import { here } from "../tablet.js";
import { go, hasDrafts, ui } from "../ui.js";
import { say } from "../words.js";

export function Today({ jobs }) {
  const { state, waits } = contactText();
  return html`<main><${Head} title=${say("today_title")} above=${here().name} />
    <${Fault} /><${Said} /><${Unknown} /><${ClockOff} />
    ${ui.update && html`<section class="early"><h2>${say("update_title")}</h2><p>${say("update_text")}</p>
      ${hasDrafts() && html`<p><b>${say("drafts_open")}</b></p>`}
      <${Button} kind="quick wide" on=${ui.update}>${say("update_now")}<//></section>`}
    ${ui.kept === false && html`<section class="early"><h2><span aria-hidden="true">▲ </span>${say("not_kept_title")}</h2><p>${say("not_kept_text")}</p></section>`}
    <${Overdue} />
    ${!jobs.length && html`<p>${say("today_none")}</p>`}
    <ul class="plain">${jobs.map((each) => html`<li><button type="button" class="job" onClick=${() => go(`job/${each.job}`)}>
      <span class="name">${each.title}</span><span>${say("today_revision", { revision: each.revision })}</span></button></li>`)}</ul>
    <section><h2>${say("record_office")}</h2><p><b>${waits}</b></p><p>${state}</p>
      <div class="actions"><${Button} on=${send}>${say("send_now")}<//>
      <${Button} on=${() => go("settings")}>${say("settings_title")}<//></div></section>
  </main>`;
}
