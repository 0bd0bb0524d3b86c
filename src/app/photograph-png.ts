import { bytesOfLetters, joined, lettersAt, viewOf } from "./photograph-bytes.ts";
import { blockOfOrientation, orientationFrom } from "./photograph-orientation.ts";

// What a still picture is drawn from [PNG §11]; texts, times and everything that only some program knows stay out.
const needed = new Set("IHDR PLTE IDAT IEND tRNS gAMA cHRM sRGB iCCP cICP mDCV cLLI sBIT bKGD pHYs".split(" "));
const signatureLength = 8;

/**
 * The picture without texts, times and Exif, and without whatever follows its end. Of a moving one the still picture
 * stays. Null where the bytes are no whole PNG.
 */
export function pngWithoutMetadata(bytes: Uint8Array): Uint8Array | null {
  const chunks: Uint8Array[] = [];
  const view = viewOf(bytes);
  let orientation = 1 as ReturnType<typeof orientationFrom>;
  let hasData = false;
  for (let at = signatureLength; ; ) {
    if (at + 12 > bytes.length) return null;
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) return null;
    const name = lettersAt(bytes, at + 4, 4);
    if (!/^[A-Za-z]{4}$/.test(name) || (chunks.length === 0) !== (name === "IHDR")) return null;
    if (needed.has(name)) chunks.push(bytes.subarray(at, end));
    // A capital marks what no reader may pass over.
    else if (/^[A-Z]/.test(name)) return null;
    else if (name === "eXIf") orientation = orientationFrom(bytes.subarray(at + 8, end - 4));
    if (name === "IDAT") hasData = true;
    at = end;
    if (name === "IEND") break;
  }
  if (!hasData) return null;
  const up = orientation === 1 ? [] : [chunkOf("eXIf", blockOfOrientation(orientation, "without mark"))];
  return joined([bytes.subarray(0, signatureLength), chunks[0]!, ...up, ...chunks.slice(1)]);
}

/** A chunk: length, name, content, and the check that covers name and content [PNG §5]. */
export function chunkOf(name: string, content: Uint8Array): Uint8Array {
  const covered = joined([bytesOfLetters(name), content]);
  const chunk = new Uint8Array(covered.length + 8);
  chunk.set(covered, 4);
  const view = viewOf(chunk);
  view.setUint32(0, content.length);
  view.setUint32(covered.length + 4, cyclicCheck(covered));
  return chunk;
}

/** CRC-32 as PNG has it: polynomial 0xedb88320, bits from the lowest, begun and ended with all ones. */
function cyclicCheck(bytes: Uint8Array): number {
  let check = 0xffffffff;
  for (const byte of bytes) {
    check ^= byte;
    for (let bit = 0; bit < 8; bit += 1) check = (check >>> 1) ^ (check & 1 ? 0xedb88320 : 0);
  }
  return ~check >>> 0;
}
