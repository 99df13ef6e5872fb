// The second copy: the whole record of a job as one zip file, in the layout of a job folder, and such a file read back.
import { hashOf, hashOfText, sha256 } from "./chain.js";
import { filesOf, linesOf, recall, take } from "./log.js";
import { unzip, zip } from "./zip.js";

const utf8 = new TextEncoder();

/** Everything that is here of a job: texts of events, photos, cards, the sheet. */
export async function copyOf({ job, sha }) {
  const lines = await linesOf(job);
  const record = lines.map((line) => `${line.raw}\n`).join("");
  const entries = [
    { name: "job.id", bytes: utf8.encode(`${job}\n`) },
    { name: "record.ndjson", bytes: utf8.encode(record) },
    { name: `sheets/${sha}.json`, bytes: utf8.encode(await recall(`sheet ${sha}`)) },
  ];
  for (const file of await filesOf(job)) {
    const name = file.mime === "image/jpeg" ? `photos/${file.sha}.jpg` : `private/${file.sha}`;
    entries.push({ name, bytes: new Uint8Array(await file.blob.arrayBuffer()) });
  }
  return zip(entries);
}

/** Hand the copy to another program of the tablet, or put it where downloads go. */
export async function handOut(blob, name) {
  const file = new File([blob], name, { type: blob.type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return;
    } catch (error) {
      if (error.name === "AbortError") throw error;
    }
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** What another tablet's copy adds to the record of this job. The same file twice adds nothing. */
export async function takeCopy(job, blob) {
  const entries = unzip(new Uint8Array(await blob.arrayBuffer()));
  const named = new Map(entries.map(({ name, bytes }) => [name, bytes]));
  const text = (name) => new TextDecoder().decode(named.get(name) ?? new Uint8Array());
  if (text("job.id").trim() !== job) throw new TypeError("the copy is of another job");
  const lines = [];
  for (const raw of text("record.ndjson").split("\n").filter(Boolean)) {
    const { dev, seq } = JSON.parse(raw);
    lines.push({ dev, seq, raw, hash: await hashOf(raw) });
  }
  for (const [name, bytes] of named) {
    const [folder, called = ""] = name.split("/");
    const sha = called.split(".")[0];
    if (["photos", "private"].includes(folder) && (await sha256(bytes)) !== sha) throw new TypeError(`${name} is damaged`);
    if (folder === "sheets" && (await hashOfText(text(name))) !== sha) throw new TypeError(`${name} is damaged`);
  }
  const before = (await linesOf(job)).length;
  const wrong = await take(job, lines);
  return { added: (await linesOf(job)).length - before, wrong: wrong.length };
}
