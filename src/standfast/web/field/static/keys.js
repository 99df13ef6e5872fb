// The key of this tablet: Ed25519, made here, and no code can read its secret half.

const base64 = (bytes) => btoa(String.fromCharCode(...new Uint8Array(bytes)));

/** After so many events the tablet signs how far its log stands. */
export const CHECKPOINT_EVERY = 25;

/** A new key pair, and its public half as the office keeps it. */
export async function makeKeys() {
  const pair = await crypto.subtle.generateKey({ name: "Ed25519" }, false, ["sign", "verify"]);
  return { pair, key: base64(await crypto.subtle.exportKey("raw", pair.publicKey)) };
}

/** The signature of a text, base64. */
export async function sign(pair, text) {
  return base64(await crypto.subtle.sign({ name: "Ed25519" }, pair.privateKey, new TextEncoder().encode(text)));
}
