import { existsSync } from "node:fs";

/** The system's Chromium, or the one that CHROMIUM names. */
export function chromium(): string {
  const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const found = places.find((place) => place !== undefined && existsSync(place));
  if (found === undefined) throw new Error("No Chromium is installed here: install one, or name it in CHROMIUM.");
  return found;
}
