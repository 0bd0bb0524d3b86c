import { writeFileSync } from "node:fs";
import { refusal } from "../../core/base/diagnostic.ts";
import type { Check, Setup } from "../../core/checks/check.ts";
import { checkSetupDrawing } from "../../core/drawing/check-setup.ts";
import { BadInput } from "../report.ts";
import { reasonOf } from "../system-reason.ts";

/** Writes the set-up drawing of one check, made from this machine's dimensions. */
export function drawCheck(check: Check, setup: Setup, to: string): void {
  const text = checkSetupDrawing({ check, setup }, "file");
  try {
    writeFileSync(to, text);
  } catch (error) {
    throw new BadInput([refusal("file-unwritable", { file: to }, { file: to, reason: reasonOf(error) })]);
  }
}
