// A time that is waited out, or after which an indication is judged: "judge after 60 s".
import { html } from "../html.js";
import { start, stop, waited } from "../alarm.js";
import { Button } from "../parts.js";
import { attempt } from "../ui.js";
import { record } from "../work.js";
import { say, told } from "../words.js";

export function TimerField({ step, item }) {
  const wait = waited(item.id);
  const judged = item.judged !== false;
  const judge = (word) => attempt(async () => {
    const data = { item: item.id, seconds: item.seconds, waited_ms: waited(item.id).ms, judged: word };
    await record("timer", step.id, data);
    stop(item.id);
  }, say("saved"));
  const left = wait ? Math.max(0, Math.ceil(item.seconds - wait.ms / 1000)) : item.seconds;
  return html`<fieldset class=${wait?.over ? "field timer over" : "field timer"}><legend>${told(item.what)}</legend>
    <p class="clock" role="timer" aria-live="off">${clock(left)}</p>
    ${!wait && html`<${Button} kind="done" on=${() => start(item.id, item.seconds)}>${say("timer_start", { seconds: item.seconds })}<//>`}
    ${wait?.over && html`<p class="call" role="alert"><b>${judged ? say("timer_look", { seconds: item.seconds }) : say("timer_waited")}</b></p>`}
    ${wait && html`<div class="actions">
      ${judged && html`<${Button} kind="problem" on=${() => judge("not seen")}><span aria-hidden="true">✕ </span>${say("not_seen")}<//>`}
      ${(judged || wait.over) && html`<${Button} kind="done" on=${() => judge("seen")}><span aria-hidden="true">✓ </span>${judged ? say("seen") : say("waited")}<//>`}
    </div>
    ${!wait.over && judged && html`<p class="limit">${say("timer_early")}</p>`}`}
  </fieldset>`;
}

const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
