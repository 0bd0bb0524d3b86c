import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { machineFromDescription } from "../machine/machine.ts";
import { signPictures } from "./sign-conventions.ts";

const machine = machineFromDescription({
  name: "Worked machine",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
});

const pictures = signPictures(machine);

// Which way plus goes on the sheet, by the words of the mode: written down by hand, apart from the model.
const ways: Readonly<Record<string, "right" | "left" | "up" | "down">> = {
  "squareness-of-y-to-x": "right",
  "yaw-of-the-beam": "up",
  "bow-of-the-beam": "up",
  "beam-high-at-the-right": "up",
  "crown-of-the-beam": "up",
  "roll-of-the-beam": "right",
  "plunge-leans-to-the-right": "right",
  "plunge-leans-to-the-rear": "right",
  "axis-leans-to-the-right": "right",
  "axis-leans-to-the-rear": "right",
  "right-rail-high-at-the-rear": "up",
  "bed-rises-to-the-right": "up",
  "bed-rises-to-the-rear": "up",
  "dial-and-stem": "right",
};

describe("pictures of signs", () => {
  it.each(Object.keys(ways))("%s goes the way its words say", (name) => {
    const { arrow } = pictures.find((picture) => picture.name === name) ?? {};
    expect(arrow).toBeTruthy();
    const dx = arrow!.to[0] - arrow!.from[0];
    const dy = arrow!.to[1] - arrow!.from[1];
    const way = Math.abs(dx) > Math.abs(dy) ? (dx > 0 ? "right" : "left") : dy > 0 ? "down" : "up";
    expect(way).toBe(ways[name]);
  });

  it("draws the X travel of a corner wider than 90° as running to the front", () => {
    const { arrow } = pictures.find(({ name }) => name === "squareness-of-y-to-x")!;
    expect(arrow!.to[1]).toBeGreaterThan(arrow!.from[1]);
  });

  it.each(pictures.map(({ name }) => name))("%s stands in the documents as it is drawn", (name) => {
    const { svg } = pictures.find((picture) => picture.name === name)!;
    const path = fileURLToPath(new URL(`../../../docs/pictures/${name}.svg`, import.meta.url));
    const stands = existsSync(path) ? readFileSync(path, "utf8") : null;
    if (stands !== `${svg}\n` && !process.env.CI) writeFileSync(path, `${svg}\n`);
    if (process.env.CI) expect(stands).toBe(`${svg}\n`);
  });
});
