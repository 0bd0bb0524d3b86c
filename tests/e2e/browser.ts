import { findChromium, noChromium } from "../../scripts/chromium.mjs";

/** The system's Chromium, or the one that CHROMIUM names. */
export function chromium(): string {
  const found = findChromium();
  if (found === null) throw new Error(noChromium);
  return found;
}
