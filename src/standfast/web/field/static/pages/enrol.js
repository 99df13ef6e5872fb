// A tablet becomes one of the firm's: with the code that the office shows, good once.
import { html, useState } from "../html.js";
import { Button, Fault, Head } from "../parts.js";
import { now } from "../sync.js";
import { enrol, here, lacking } from "../tablet.js";
import { attempt, go } from "../ui.js";
import { say } from "../words.js";
import { Languages } from "./settings.js";

export function Enrol({ code: shown }) {
  const [code, setCode] = useState(shown);
  const [name, setName] = useState(here()?.name ?? "");
  const gone = lacking();
  const begin = async () => {
    if (await attempt(async () => {
      await enrol(code.trim(), name.trim());
      await now();
    }, say("enrolled"))) go("");
  };
  return html`<main><${Head} title=${say("enrol_title")} />
    <${Fault} />
    <${Languages} />
    ${gone.length > 0 && html`<div class="fault" role="alert"><h2>${say("lacking_title")}</h2>
      <p>${say("lacking_text", { what: gone.join(", ") })}</p></div>`}
    <p>${say(here() ? "unknown_text" : "enrol_text")}</p>
    <label>${say("enrol_code")}<input id="code" value=${code} autocomplete="off" autocapitalize="off" spellcheck=${false} onInput=${(event) => setCode(event.target.value)} /></label>
    <label>${say("enrol_name")}<input id="name" value=${name} maxlength="60" autocomplete="off" onInput=${(event) => setName(event.target.value)} /></label>
    ${code.trim() && name.trim() && !gone.length && html`<${Button} kind="done" on=${begin}>${say("enrol_do")}<//>`}
  </main>`;
}
