// A zip file without compression, written and read: the copy of the record that leaves the tablet.

const TABLE = Uint32Array.from({ length: 256 }, (_, each) => {
  let sum = each;
  for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});

function crcOf(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) sum = TABLE[(sum ^ byte) & 255] ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const UTF8 = 0x0800;
const FIRST_OF_1980 = 0x0021;

/** A zip of [{ name, bytes }]: contents as they are, in the order given, without a clock. */
export function zip(entries) {
  const pieces = [];
  const central = [];
  let offset = 0;
  for (const { name, bytes } of entries) {
    const called = new TextEncoder().encode(name);
    const common = [20, UTF8, 0, 0, FIRST_OF_1980, crcOf(bytes), bytes.length, bytes.length, called.length, 0];
    const local = packed("IHHHHHIIIHH", [LOCAL, ...common]);
    central.push(packed("IHHHHHHIIIHHHHHII", [CENTRAL, 20, ...common, 0, 0, 0, 0, offset]), called);
    pieces.push(local, called, bytes);
    offset += local.length + called.length + bytes.length;
  }
  const long = central.reduce((sum, each) => sum + each.length, 0);
  const end = packed("IHHHHIIH", [END, 0, 0, entries.length, entries.length, long, offset, 0]);
  return new Blob([...pieces, ...central, end], { type: "application/zip" });
}

function packed(shape, numbers) {
  const view = new DataView(new ArrayBuffer([...shape].reduce((sum, kind) => sum + (kind === "I" ? 4 : 2), 0)));
  let at = 0;
  [...shape].forEach((kind, place) => {
    if (kind === "I") view.setUint32(at, numbers[place], true);
    else view.setUint16(at, numbers[place], true);
    at += kind === "I" ? 4 : 2;
  });
  return new Uint8Array(view.buffer);
}

/** The entries of a zip without compression. A damaged or compressed one is refused. */
export function unzip(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== END) end -= 1;
  if (end < 0) throw new TypeError("no zip file");
  const entries = [];
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (view.getUint32(at, true) !== CENTRAL) throw new TypeError("the zip file is damaged");
    if (view.getUint16(at + 10, true) !== 0) throw new TypeError("the zip file is compressed");
    const long = view.getUint32(at + 24, true);
    const called = view.getUint16(at + 28, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + called));
    const local = view.getUint32(at + 42, true);
    const begin = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const content = bytes.subarray(begin, begin + long);
    if (content.length !== long || crcOf(content) !== view.getUint32(at + 16, true)) {
      throw new TypeError(`${name} is damaged`);
    }
    entries.push({ name, bytes: content });
    at += 46 + called + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}
