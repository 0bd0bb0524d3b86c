import { bytesOfLetters, joined, lettersAt, viewOf } from "./photograph-bytes.ts";
import { blockOfOrientation, orientationFrom } from "./photograph-orientation.ts";

// What a picture is drawn from [RFC 9649 §2.7].
const needed = new Set(["VP8 ", "VP8L", "VP8X", "ALPH", "ANIM", "ANMF", "ICCP"]);
const pictures = new Set(["VP8 ", "VP8L", "ANMF"]);
const [exifFlag, xmpFlag] = [0x08, 0x04];
const headLength = 12;
const frameHeadLength = 16;

/** The picture without Exif, XMP and chunks that only some program knows. Null where the bytes are no whole WebP. */
export function webpWithoutMetadata(bytes: Uint8Array): Uint8Array | null {
  if (bytes.length < headLength) return null;
  const end = viewOf(bytes).getUint32(4, true) + 8;
  if (end > bytes.length) return null;
  const chunks = chunksIn(bytes.subarray(0, end), headLength);
  if (chunks === null || !chunks.some(({ name }) => pictures.has(name))) return null;
  const exif = chunks.find(({ name }) => name === "EXIF");
  const orientation = exif === undefined ? 1 : orientationFrom(exif.content);
  const kept: Uint8Array[] = [];
  for (const { name, content } of chunks) {
    if (!needed.has(name)) continue;
    if (name === "VP8X") kept.push(chunkOf(name, withFlags(content, orientation !== 1)));
    else if (name !== "ANMF") kept.push(chunkOf(name, content));
    else {
      const inside = chunksIn(content, frameHeadLength);
      if (inside === null) return null;
      const parts = inside.filter((part) => needed.has(part.name)).map((part) => chunkOf(part.name, part.content));
      kept.push(chunkOf(name, joined([content.subarray(0, frameHeadLength), ...parts])));
    }
  }
  if (orientation !== 1) kept.push(chunkOf("EXIF", blockOfOrientation(orientation, "without mark")));
  return chunkOf("RIFF", joined([bytesOfLetters("WEBP"), ...kept]));
}

interface Chunk {
  readonly name: string;
  readonly content: Uint8Array;
}

/** Null where a chunk reaches beyond the end. */
function chunksIn(bytes: Uint8Array, from: number): readonly Chunk[] | null {
  const view = viewOf(bytes);
  const chunks: Chunk[] = [];
  for (let at = from; at < bytes.length; ) {
    if (at + 8 > bytes.length) return null;
    const length = view.getUint32(at + 4, true);
    if (at + 8 + length > bytes.length) return null;
    chunks.push({ name: lettersAt(bytes, at, 4), content: bytes.subarray(at + 8, at + 8 + length) });
    // Each begins at an even place.
    at += 8 + length + (length % 2);
  }
  return chunks;
}

function chunkOf(name: string, content: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(8 + content.length + (content.length % 2));
  chunk.set(bytesOfLetters(name));
  viewOf(chunk).setUint32(4, content.length, true);
  chunk.set(content, 8);
  return chunk;
}

function withFlags(content: Uint8Array, hasExif: boolean): Uint8Array {
  const flags = (content[0] ?? 0) & ~(exifFlag | xmpFlag);
  return joined([Uint8Array.of(hasExif ? flags | exifFlag : flags), content.subarray(1)]);
}
