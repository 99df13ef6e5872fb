// A photo that a step asks for: taken, drawn anew, and saved with its event in one piece.
import { html } from "../html.js";
import { fileOf } from "../log.js";
import { photoOf } from "../media.js";
import { attempt, ui } from "../ui.js";
import { counting, covered } from "../view.js";
import { record } from "../work.js";
import { say, told } from "../words.js";

/** A button that opens the camera; gives the picture as it is kept. */
export const Camera = ({ label, on, id }) => html`<label class="camera">
  <input type="file" id=${id} accept="image/*" capture="environment" onChange=${(event) => {
    const [file] = event.target.files;
    event.target.value = "";
    if (file) on(file);
  }} /><span>${label}</span></label>`;

export function PhotoField({ work, step, item, draft }) {
  const { state } = work;
  const left = item.count - covered(state, item.id);
  const shows = draft.shows?.[item.id] ?? Math.max(1, left);
  const take = (file) => attempt(async () => {
    const photo = await photoOf(file);
    const data = { item: item.id, sha: photo.sha, bytes: photo.bytes, mime: photo.mime };
    if (item.count > 1) data.equal = shows;
    await record("photo", step.id, data, [photo]);
  }, say("saved_photo"));
  const more = (by) => {
    draft.shows = { ...draft.shows, [item.id]: Math.min(item.count, Math.max(1, shows + by)) };
    ui.draw();
  };
  const taken = counting(state, item.id);
  return html`<fieldset class="field"><legend>${told(item.what)}</legend>
    ${item.count > 1 && html`<div class="entry"><p>${say("photo_shows", { count: shows, all: item.count })}</p>
      <button type="button" class="quick" aria-label=${say("fewer")} onClick=${() => more(-1)}>−</button>
      <button type="button" class="quick" aria-label=${say("more")} onClick=${() => more(1)}>+</button></div>`}
    <${Camera} id=${`f-${item.id}`} label=${taken.length ? say("photo_again") : say("photo_take")} on=${take} />
    <div class="photos">${taken.map((each) => html`<${Photo} key=${each.value} sha=${each.value} />`)}</div>
  </fieldset>`;
}

const addresses = new Map();

/** A photo that is on this tablet; a word where it is on another. */
export function Photo({ sha }) {
  if (!addresses.has(sha)) {
    addresses.set(sha, "");
    fileOf(sha).then((file) => {
      if (file) addresses.set(sha, URL.createObjectURL(file.blob));
      ui.draw();
    });
  }
  const address = addresses.get(sha);
  return address
    ? html`<img class="photo" alt=${say("photo_saved", { sha: sha.slice(0, 8) })} src=${address} />`
    : html`<p class="limit">${say("photo_elsewhere", { sha: sha.slice(0, 8) })}</p>`;
}
