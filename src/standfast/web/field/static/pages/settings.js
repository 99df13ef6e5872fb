// This tablet: language, whether its store is kept, its clock against the office's, its key and version.
import { APP } from "../chain.js";
import { html, useEffect, useState } from "../html.js";
import { recall, remember } from "../log.js";
import { Button, CLOCK_MS, Fault, Head, Said } from "../parts.js";
import { here, keepStorage, storage } from "../tablet.js";
import { attempt, go, ui } from "../ui.js";
import { language, say, speak } from "../words.js";

const TONGUES = [["en", "English"], ["es", "Español"]];

/** The languages, each in its own words. */
export const Languages = () => html`<fieldset class="field"><legend>Language / Idioma</legend><div class="entry">
  ${TONGUES.map(([code, name]) => html`<label class="choice"><input type="radio" name="language" checked=${language() === code}
    onChange=${() => attempt(async () => {
      await speak(code);
      await remember({ language: code });
    })} /><span lang=${code}>${name}</span></label>`)}</div></fieldset>`;

export function Settings() {
  const [facts, setFacts] = useState(null);
  const look = async () => {
    const told = await storage();
    ui.kept = told.kept;
    setFacts({ ...told, skew: await recall("skew") });
  };
  useEffect(() => void look(), []);
  const keep = () => attempt(async () => {
    await keepStorage();
    await look();
  });
  const row = (word, value) => html`<div><dt>${say(word)}</dt><dd>${value}</dd></div>`;
  const fast = facts?.skew;
  return html`<main><${Head} title=${say("settings_title")} above=${here().name} />
    <${Fault} /><${Said} />
    <${Languages} />
    ${facts && html`<dl class="block">
      ${row("settings_store", say(facts.kept ? "settings_kept" : "settings_not_kept"))}
      ${row("settings_used", say("settings_bytes", { mb: Math.ceil(facts.usage / 1e6) }))}
      ${row("settings_clock", fast === undefined ? say("settings_clock_unknown")
        : Math.abs(fast) < CLOCK_MS ? say("settings_clock_good") : say("settings_clock_off", { minutes: Math.round(fast / 60_000) }))}
      ${row("settings_tablet", here().dev)}
      ${row("settings_key", html`<span class="long-word">${here().key}</span>`)}
      ${row("settings_version", APP)}</dl>`}
    ${facts && !facts.kept && html`<p>${say("not_kept_text")}</p><${Button} kind="quick wide" on=${keep}>${say("settings_keep")}<//>`}
    <${Button} kind="plain wide" on=${() => go("")}>${say("today_title")}<//>
  </main>`;
}
