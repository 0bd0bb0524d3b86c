import { joined, lettersAt } from "./photograph-bytes.ts";
import { blockOfOrientation, type Orientation, orientationFrom } from "./photograph-orientation.ts";

// Markers [JPEG Annex B], the byte after 0xff.
const startOfImage = 0xd8;
const endOfImage = 0xd9;
const startOfScan = 0xda;
const application = (n: number) => 0xe0 + n;

/**
 * The picture without what a camera, a telephone or a program has noted in it: of the segments for applications only
 * those stay that colours and sizes hang on, comments go, and so does whatever follows the picture's end. Null where the
 * bytes are no whole JPEG.
 */
export function jpegWithoutMetadata(bytes: Uint8Array): Uint8Array | null {
  const head: Uint8Array[] = [bytes.subarray(0, 2)];
  const rest: Uint8Array[] = [];
  let orientation: Orientation = 1;
  let hasScan = false;
  for (let at = 2; ; ) {
    if (bytes[at] !== 0xff) return null;
    // A marker may be preceded by any number of these.
    while (bytes[at + 1] === 0xff) at += 1;
    const marker = bytes[at + 1];
    if (marker === undefined || marker === 0 || marker === startOfImage) return null;
    if (marker === endOfImage) {
      rest.push(bytes.subarray(at, at + 2));
      break;
    }
    const end = at + 2 + ((bytes[at + 2] ?? 0) << 8) + (bytes[at + 3] ?? 0);
    if (end < at + 4 || end > bytes.length) return null;
    const segment = bytes.subarray(at, end);
    if (marker === application(0) && lettersAt(segment, 4, 5) === "JFIF\0") head.push(withoutThumbnail(segment));
    else if (marker === application(1) && lettersAt(segment, 4, 6) === "Exif\0\0") {
      if (orientation === 1) orientation = orientationFrom(segment.subarray(4));
    } else if (isNeeded(marker, segment)) rest.push(segment);
    at = end;
    if (marker === startOfScan) {
      at = endOfScan(bytes, at);
      rest.push(bytes.subarray(end, at));
      hasScan = true;
    }
  }
  if (!hasScan) return null;
  if (orientation !== 1) head.push(segmentOf(application(1), blockOfOrientation(orientation, "with mark")));
  return joined([...head, ...rest]);
}

/** All but the applications' own: of those the colour profile, and how colours were turned into three numbers. */
function isNeeded(marker: number, segment: Uint8Array): boolean {
  if (marker === 0xfe) return false;
  if (marker < application(0) || marker > application(15)) return true;
  if (marker === application(2)) return lettersAt(segment, 4, 12) === "ICC_PROFILE\0";
  return marker === application(14) && lettersAt(segment, 4, 5) === "Adobe";
}

/** The small picture may show what has since been cut off the large one. */
function withoutThumbnail(segment: Uint8Array): Uint8Array {
  const short = new Uint8Array(18);
  short.set(segment.subarray(0, 16));
  short.set([0, 16], 2);
  return short;
}

/** Where the coded data of a scan ends: at a marker that is neither a stuffed zero nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1] ?? 0;
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at;
  }
  return bytes.length;
}

function segmentOf(marker: number, content: Uint8Array): Uint8Array {
  const length = content.length + 2;
  return joined([Uint8Array.of(0xff, marker, length >> 8, length & 255), content]);
}
