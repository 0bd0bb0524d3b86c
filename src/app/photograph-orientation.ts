import { bytesOfLetters, joined, lettersAt, viewOf } from "./photograph-bytes.ts";

/** 1 as it lies; 2 to 8 mirrored or turned, as the camera was held. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

const orientationTag = 0x0112;
const shortNumber = 3;
const exifMark = "Exif\0\0";

/**
 * Which way is up, from a block of Exif: a list of tags in the form of TIFF [Exif §4.6], with its mark before it or not.
 * 1 where the block says nothing that can be read.
 */
export function orientationFrom(block: Uint8Array): Orientation {
  const tiff = lettersAt(block, 0, 6) === exifMark ? block.subarray(6) : block;
  const order = lettersAt(tiff, 0, 4);
  const little = order === "II*\0";
  if (tiff.length < 14 || (!little && order !== "MM\0*")) return 1;
  const view = viewOf(tiff);
  const list = view.getUint32(4, little);
  if (list + 2 > tiff.length) return 1;
  const count = view.getUint16(list, little);
  for (let n = 0, at = list + 2; n < count && at + 12 <= tiff.length; n += 1, at += 12) {
    if (view.getUint16(at, little) !== orientationTag) continue;
    const value = view.getUint16(at + 8, little);
    const isRead = view.getUint16(at + 2, little) === shortNumber && value >= 1 && value <= 8;
    return isRead ? (value as Orientation) : 1;
  }
  return 1;
}

/** A block of Exif that says which way is up and nothing else. */
export function blockOfOrientation(orientation: Orientation, mark: "with mark" | "without mark"): Uint8Array {
  const tiff = new Uint8Array(26);
  tiff.set(bytesOfLetters("MM\0*"));
  const view = viewOf(tiff);
  view.setUint32(4, 8);
  view.setUint16(8, 1);
  view.setUint16(10, orientationTag);
  view.setUint16(12, shortNumber);
  view.setUint32(14, 1);
  view.setUint16(18, orientation);
  return mark === "with mark" ? joined([bytesOfLetters(exifMark), tiff]) : tiff;
}
