// What people read, from the catalogue of the server (words/en/field.toml, words/es/field.toml).

let texts = {};
let chosen = "en";

/** Take the words of a language; they lie in the shell, so this works without a server. */
export async function speak(language) {
  const answer = await fetch(`/field/words/${language}.json`);
  if (!answer.ok) throw new Error(`no words: ${answer.status}`);
  texts = await answer.json();
  chosen = language;
  document.documentElement.lang = language;
}

/** The language in use. */
export const language = () => chosen;

/** A text of the catalogue; `parts` stand for the names in braces. */
export function say(key, parts = {}) {
  const text = texts[key];
  if (text === undefined) return key;
  return text.replace(/\{(\w+)\}/g, (_, name) => String(parts[name] ?? `{${name}}`));
}

/** A text of the field sheet, which comes in several languages; English where it lacks one, and marked so. */
export function told(each) {
  if (typeof each === "string") return each;
  if (!each) return "";
  return each[chosen] ?? (each.en === undefined ? "" : say("in_english", { text: each.en }));
}

/** A moment by the clock of this tablet. */
export function when(wall) {
  const moment = new Date(wall);
  if (Number.isNaN(moment.getTime())) return wall;
  const two = (number) => String(number).padStart(2, "0");
  const day = `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
  return `${day} ${two(moment.getHours())}:${two(moment.getMinutes())}`;
}
