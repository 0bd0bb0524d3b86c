import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { Photograph } from "./event-store.ts";
import { jpegWithoutMetadata } from "./photograph-jpeg.ts";
import { pngWithoutMetadata } from "./photograph-png.ts";
import { webpWithoutMetadata } from "./photograph-webp.ts";

export type PictureType = Photograph["mediaType"];

/** 8 MB: a telephone's photograph in full; more is nearly always a slip. */
export const mostPhotographBytes = 8_000_000;

/**
 * A photograph ready to be kept: its type read from its bytes, everything taken out that tells of the place, the time and
 * the camera, the checksum taken of what is left. What stands in it about which way is up stays, or it would lie on its
 * side. `stated` is the type that whoever sends it says it has. The same bytes always give the same photograph, and a
 * photograph prepared again is unchanged.
 */
export function photographFromBytes(
  bytes: Uint8Array,
  sha256Of: (bytes: Uint8Array) => string,
  stated?: string,
): Outcome<Photograph> {
  if (bytes.length > mostPhotographBytes) {
    const data = { megabytes: (Math.ceil(bytes.length / 1e5) / 10).toFixed(1), most: mostPhotographBytes / 1e6 };
    return refuse(refusal("photograph-too-large", {}, data));
  }
  const mediaType = pictureTypeOf(bytes);
  if (mediaType === null) return refuse(refusal("photograph-of-unknown-type", {}));
  if (stated !== undefined && stated !== mediaType) {
    return refuse(refusal("photograph-of-other-type", {}, { stated: stated.slice(0, 60), found: mediaType }));
  }
  const plain = withoutMetadata[mediaType](bytes);
  if (plain === null) return refuse(refusal("photograph-broken", {}, { found: mediaType }));
  return succeed({ sha256: sha256Of(plain), mediaType, bytes: plain });
}

/** The type that the first bytes tell; null for anything that is not kept. */
export function pictureTypeOf(bytes: Uint8Array): PictureType | null {
  const begins = (pattern: string, at = 0) =>
    Array.from(pattern).every((letter, index) => bytes[at + index] === letter.charCodeAt(0));
  if (begins("\xff\xd8\xff")) return "image/jpeg";
  if (begins("\x89PNG\r\n\x1a\n")) return "image/png";
  if (begins("RIFF") && begins("WEBP", 8)) return "image/webp";
  return null;
}

/** Ending of a file's name for each type. */
export const pictureEndings: Readonly<Record<PictureType, string>> = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/webp": "webp",
};

const withoutMetadata: Readonly<Record<PictureType, (bytes: Uint8Array) => Uint8Array | null>> = {
  "image/jpeg": jpegWithoutMetadata,
  "image/png": pngWithoutMetadata,
  "image/webp": webpWithoutMetadata,
};
