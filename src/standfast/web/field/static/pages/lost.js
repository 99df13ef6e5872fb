// The store of this tablet is not the one that it wrote: said loudly, and never passed over.
import { html, useState } from "../html.js";
import { Button, Head } from "../parts.js";
import { say } from "../words.js";

export function Lost({ lost, begin }) {
  const [sure, setSure] = useState(false);
  return html`<main><div class="fault lost" role="alert"><${Head} title=${say("lost_title")} />
    <p>${say("lost_text")}</p>
    <ul>${lost.jobs.map((each) => html`<li>${say("lost_job", { job: each.job.slice(0, 8), was: each.was, here: each.here })}</li>`)}</ul>
    <p>${say("lost_dev", { dev: lost.dev })}</p>
    <p><b>${say("lost_do")}</b></p></div>
    <label class="choice tall"><input type="checkbox" checked=${sure} onChange=${() => setSure(!sure)} /><span>${say("lost_told")}</span></label>
    ${sure && html`<${Button} kind="problem" on=${begin}>${say("lost_begin")}<//>`}
  </main>`;
}
