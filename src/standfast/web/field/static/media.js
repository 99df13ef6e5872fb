// Photos: drawn anew on a canvas, so that they are small and hold nothing but the picture (no position, no camera).
import { sha256 } from "./chain.js";

export const LARGEST_BYTES = 1_500_000;
const SIDES = [2048, 1600, 1280, 1024, 800];
const QUALITIES = [0.85, 0.7, 0.55];

/** The picture of a camera file as it is kept: { sha, blob, bytes, mime }. */
export async function photoOf(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  try {
    for (const side of SIDES) {
      const canvas = drawn(picture, side);
      for (const quality of QUALITIES) {
        const blob = await new Promise((made) => canvas.toBlob(made, "image/jpeg", quality));
        if (blob && blob.size <= LARGEST_BYTES) return await kept(blob);
      }
    }
  } finally {
    picture.close();
  }
  throw new RangeError("the picture cannot be made small enough");
}

function drawn(picture, side) {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** What is stored of some contents, named by its hash. The bytes are read here, before any transaction. */
export async function kept(blob) {
  const bytes = await blob.arrayBuffer();
  return { sha: await sha256(bytes), blob: new Blob([bytes], { type: blob.type }), bytes: bytes.byteLength, mime: blob.type };
}
