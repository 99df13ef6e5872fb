// Talks to the office's server; every fault comes out as what, why and what to do.

const API = "/api/v1";

/** The server was reached and refused. */
export class Refused extends Error {
  constructor(status, told) {
    super(told.what || `${status}`);
    this.status = status;
    this.why = told.why ?? "";
    this.todo = told.do ?? "";
  }
}

/** The server was not reached. */
export class NoServer extends Error {}

/** So long an answer is waited for: a network that takes everything and brings nothing back is no network. */
export const patience = { ms: 60_000 };

/** The whole answer; a network that ends or falls silent before that is no server. */
async function call(path, options = {}) {
  try {
    const headers = { "X-Standfast": "1", ...options.headers };
    const signal = AbortSignal.timeout(patience.ms);
    const answer = await fetch(`${API}${path}`, { credentials: "same-origin", cache: "no-store", signal, ...options, headers });
    const { status, ok } = answer;
    return { status, ok, headers: answer.headers, text: new TextDecoder().decode(await answer.arrayBuffer()) };
  } catch (error) {
    throw new NoServer(String(error));
  }
}

function refusal({ status, text }) {
  try {
    return new Refused(status, JSON.parse(text));
  } catch {
    return new Refused(status, {});
  }
}

/** What an answer tells. A network that answers for the office, as those of hotels do, is no server either. */
function told({ text }) {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new NoServer(String(error));
  }
}

/** A JSON answer. */
export const get = async (path) => told({ text: await getText(path) });

/** A text, to the byte. */
export async function getText(path) {
  const answer = await call(path);
  if (!answer.ok) throw refusal(answer);
  return answer.text;
}

/** Bring JSON. */
export async function post(path, body) {
  const options = { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } };
  const answer = await call(path, options);
  if (!answer.ok) throw refusal(answer);
  return told(answer);
}

const PIECE_BYTES = 256 * 1024;

/** Bring a photo or a card in pieces, from where the last attempt ended. Resolved once the server has all of it. */
export async function bring(job, file) {
  const path = `/jobs/${job}/files/${file.sha}`;
  const bytes = new Uint8Array(await file.blob.arrayBuffer());
  let offset = await offsetOf(path);
  for (let again = 0; offset < bytes.length; ) {
    const answer = await call(path, {
      method: "PATCH",
      body: bytes.subarray(offset, offset + PIECE_BYTES),
      headers: {
        "Content-Type": "application/offset+octet-stream",
        "Upload-Offset": String(offset),
        "Upload-Length": String(bytes.length),
      },
    });
    if (answer.ok) {
      const now = Number(answer.headers.get("Upload-Offset"));
      if (!(now > offset)) throw new Refused(answer.status, {});
      offset = now;
    } else if ([409, 460].includes(answer.status) && again < 3) {
      again += 1;
      offset = await offsetOf(path);
    } else {
      throw refusal(answer);
    }
  }
}

async function offsetOf(path) {
  const answer = await call(path, { method: "HEAD" });
  if (answer.status === 404) return 0;
  if (!answer.ok) throw new Refused(answer.status, {});
  return Number(answer.headers.get("Upload-Offset") ?? 0);
}
