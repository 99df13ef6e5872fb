// Who holds the tablet, and the cards of the people of the job.
import { html } from "../html.js";
import { Button, Fault, Head, Said } from "../parts.js";
import { attempt, draftOf, dropDraft, go, ui } from "../ui.js";
import { hold, makeCard, person, record } from "../work.js";
import { say } from "../words.js";

const ROLES = [["licensed", "role_licensed"], ["crew", "role_crew"], ["authority", "role_authority"], ["owner", "role_owner"]];
const roleWord = (role) => say(ROLES.find(([each]) => each === role)?.[1] ?? "role_crew");

export function People({ work }) {
  const draft = (draftOf("person").person ??= { name: "", licence: "", role: "crew" });
  const set = (change) => {
    Object.assign(draft, change);
    ui.draw();
  };
  const take = async (card, file) => {
    if (await attempt(() => hold(card, file), say("saved"))) go(`job/${work.job}`);
  };
  const make = (takes) => attempt(async () => {
    const made = { ...draft };
    const file = await makeCard(made);
    if (draft.name === made.name) dropDraft("person");
    if (takes) await hold(file.sha, file);
    else await record("manifest", "", { files: [file.sha] }, [file]);
    go(takes ? `job/${work.job}` : `job/${work.job}/people`);
  }, say("saved"));
  const field = (name, word) => html`<label>${say(word)}<input value=${draft[name]} maxlength="120" autocomplete="off"
    onInput=${(event) => set({ [name]: event.target.value })} /></label>`;
  return html`<main><${Head} title=${say("people_title")} above=${work.title} />
    <${Fault} /><${Said} />
    <p>${work.user ? say("people_now", { name: person(work.user).name }) : say("people_none")}</p>
    <ul class="plain">${Object.keys(work.cards).map((card) => html`<li><${Button} kind="quick wide" on=${() => take(card, null)}>
      ${say("people_take", { name: person(card).name })} · ${roleWord(person(card).role)}<//></li>`)}</ul>
    <h2>${say("people_new")}</h2>
    ${field("name", "person_name")}${field("licence", "person_licence")}
    <label>${say("person_role")}<select onChange=${(event) => set({ role: event.target.value })}>
      ${ROLES.map(([role, word]) => html`<option value=${role} selected=${role === draft.role}>${say(word)}</option>`)}</select></label>
    ${draft.name.trim() && html`<div class="actions">
      <${Button} on=${() => make(false)}>${say("person_add")}<//>
      <${Button} kind="done" on=${() => make(true)}>${say("person_take_new")}<//></div>`}
    <p class="limit">${say("people_kept")}</p>
    <${Button} kind="plain wide" on=${() => go(`job/${work.job}`)}>${say("back")}<//>
  </main>`;
}
