import type { WorkPictureId, WorkSizes } from "../../core/drawing/work-drawings.ts";
import type { Dimensions } from "../../core/machine/dimensions.ts";
import type { PictureSize, PictureSizes } from "./protocol-work.ts";

/** What each picture of the work can be asked for on a machine of these dimensions, by picture. */
export function pictureSizes(d: Dimensions): Readonly<Record<WorkPictureId, readonly PictureSize[]>> {
  const mm = (key: string, words: string, from: number, to: number): PictureSize => ({
    key,
    words,
    unit: "mm",
    from,
    to,
  });
  const area = [mm("alongX", "Along X", 1, d.Lx), mm("alongY", "Along Y", 1, d.Ly)];
  const least = Math.min(d.Lx, d.Ly);
  return {
    square: area,
    circle: [mm("radius", "Radius of the cutter’s path", 0.5, least / 2)],
    "depth-map": area,
    stroke: [
      { key: "angleDegrees", words: "Angle of the cutter", unit: "°", from: 10, to: 150 },
      mm("depth", "Depth", 0.05, d.Lz),
      ...area,
    ],
    surfacing: [mm("cutterDiameter", "Cutter", 1, least), mm("stepover", "From pass to pass", 0.1, least)],
    "holes-and-walls": [mm("depth", "Depth", 0.1, d.Lz)],
    dimension: [mm("length", "Length", 1, least), mm("cutterDiameter", "Cutter", 0.1, 60)],
  };
}

/** Only what a picture knows of; the rest of an address is passed over. */
export function askedSizes(asked: PictureSizes, known: ReturnType<typeof pictureSizes>): WorkSizes {
  return Object.fromEntries(
    Object.entries(known).map(([picture, sizes]) => {
      const own = asked[picture] ?? {};
      return [picture, Object.fromEntries(sizes.flatMap(({ key }) => (key in own ? [[key, own[key]]] : [])))];
    }),
  );
}
