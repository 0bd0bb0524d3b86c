/** Pictures made by hand, as short as their forms allow: enough to be read part by part, not to be looked at. */

export const letters = (text: string): readonly number[] => Array.from(text, (letter) => letter.charCodeAt(0));

export function segment(marker: number, content: readonly number[]): readonly number[] {
  const length = content.length + 2;
  return [0xff, marker, length >> 8, length & 255, ...content];
}

/** Coded data with a stuffed zero and a restart in it. */
const scan = [...segment(0xda, [1, 1, 0, 0, 63, 0]), 0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56];
const tables = [...segment(0xdb, [0, 1, 2, 3]), ...segment(0xc0, [8, 0, 1, 0, 1, 1, 1, 0x11, 0])];

export const jfif = segment(0xe0, [...letters("JFIF\0"), 1, 2, 0, 0, 1, 0, 1, 0, 0]);

/** A JPEG with segments before its tables and bytes after its end. */
export function smallJpeg(before: readonly number[] = jfif, after: readonly number[] = []): Uint8Array {
  return Uint8Array.from([0xff, 0xd8, ...before, ...tables, ...scan, 0xff, 0xd9, ...after]);
}

/** A block of Exif in either order of bytes: a maker, which way is up, and where it was. */
export function exifBlock(orientation: number, order: "II" | "MM"): readonly number[] {
  const bytesOf = (value: number, count: number) => {
    const bytes = Array.from({ length: count }, (_, n) => (value >> (8 * n)) & 255);
    return order === "II" ? bytes : bytes.reverse();
  };
  const entry = (tag: number, type: number, count: number, value: readonly number[]) => [
    ...bytesOf(tag, 2),
    ...bytesOf(type, 2),
    ...bytesOf(count, 4),
    ...value,
    ...Array.from({ length: 4 - value.length }, () => 0),
  ];
  return [
    ...letters(order),
    ...bytesOf(42, 2),
    ...bytesOf(8, 4),
    ...bytesOf(3, 2),
    ...entry(0x010f, 2, 4, letters("cam\0")),
    ...entry(0x0112, 3, 1, bytesOf(orientation, 2)),
    ...entry(0x8825, 4, 1, bytesOf(50, 4)),
    ...bytesOf(0, 4),
    ...letters("51 deg north"),
  ];
}

export function exifSegment(orientation: number, order: "II" | "MM" = "II"): readonly number[] {
  return segment(0xe1, [...letters("Exif\0\0"), ...exifBlock(orientation, order)]);
}

export const pngSignature = [0x89, ...letters("PNG\r\n"), 0x1a, 0x0a];

/** A chunk of PNG; its check is looked at by nobody here and stands as four letters. */
export function pngChunk(name: string, content: readonly number[]): readonly number[] {
  const { length } = content;
  return [
    length >>> 24,
    (length >> 16) & 255,
    (length >> 8) & 255,
    length & 255,
    ...letters(name),
    ...content,
    ...letters("crc!"),
  ];
}

export function smallPng(
  extra: readonly number[] = [],
  afterData: readonly number[] = [],
  after: readonly number[] = [],
) {
  const header = pngChunk("IHDR", [0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0]);
  const data = pngChunk("IDAT", [0x78, 0x9c, 0x63, 0x60, 0x00, 0x00, 0x00, 0x02, 0x00, 0x01]);
  return Uint8Array.from([
    ...pngSignature,
    ...header,
    ...extra,
    ...data,
    ...afterData,
    ...pngChunk("IEND", []),
    ...after,
  ]);
}

export function webpChunk(name: string, content: readonly number[]): readonly number[] {
  const { length } = content;
  const size = [length & 255, (length >> 8) & 255, (length >> 16) & 255, length >>> 24];
  return [...letters(name), ...size, ...content, ...(length % 2 === 1 ? [0] : [])];
}

export function webpOf(...chunks: readonly (readonly number[])[]): Uint8Array {
  return Uint8Array.from(webpChunk("RIFF", [...letters("WEBP"), ...chunks.flat()]));
}
