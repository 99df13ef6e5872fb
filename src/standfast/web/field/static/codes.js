// Bar codes read and written by one library that lies in the shell: nothing is asked of a network.
import { prepareZXingModule, readBarcodes, writeBarcode } from "./lib/zxing/full/index.js";

const WASM = new URL("./lib/zxing/zxing_full.wasm", import.meta.url).href;
const FORMATS = ["QRCode", "DataMatrix", "Code128", "Code39", "EAN13", "UPCA", "PDF417", "Aztec"];
const BEGIN = "sf1";

prepareZXingModule({ overrides: { locateFile: () => WASM } });

/** The codes in a picture (a Blob or ImageData): [{ text, symbology }]. */
export async function codesIn(picture) {
  const found = await readBarcodes(picture, { formats: FORMATS, tryHarder: true, maxNumberOfSymbols: 4 });
  return found.filter((each) => each.isValid).map(({ text, format }) => ({ text, symbology: format }));
}

/** A QR code as SVG text, with its quiet zone. */
export async function codeOf(text) {
  const made = await writeBarcode(text, { format: "QRCode", scale: 1, withQuietZones: true });
  if (made.error) throw new Error(made.error);
  return made.svg;
}

/** How far a log stands, as another tablet reads it from the screen. */
export const headCode = (job, dev, { seq, hash }) => [BEGIN, job, dev, seq, hash].join(" ");

/** The same, read; null where it is something else. */
export function headIn(text) {
  const [begin, job, dev, seq, hash, ...more] = text.split(" ");
  const whole = begin === BEGIN && /^[0-9a-f]{64}$/.test(hash ?? "") && /^[1-9][0-9]*$/.test(seq) && !more.length;
  return whole ? { job, dev, seq: Number(seq), hash } : null;
}
