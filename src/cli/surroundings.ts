import { randomBytes } from "node:crypto";
import type { Surroundings } from "../app/surroundings.ts";

export const hereAndNow: Surroundings = {
  nowMs: () => Date.now(),
  offsetMinutes: (atMs) => -new Date(atMs).getTimezoneOffset(),
  randomBytes: (count) => Uint8Array.from(randomBytes(count)),
};
