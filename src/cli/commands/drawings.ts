import { writeFileSync } from "node:fs";
import { usualMachine } from "../../app/usual-machine.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { checkById } from "../../core/checks/catalogue.ts";
import { checkSetupDrawing } from "../../core/drawing/check-setup.ts";
import { machineFromDescription } from "../../core/machine/machine.ts";
import { openLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { say } from "../terminal.ts";
import { optionsFromPairs } from "./checks.ts";

/** Writes the set-up drawing of one check, made from this machine's dimensions. */
export function drawCheck(id: string, file: string | undefined, to: string, pairs: readonly string[]): void {
  const check = checkById(id);
  if (!check) return;
  const machine = file === undefined ? machineFromDescription(usualMachine) : openLogbook(file).machine;
  const text = checkSetupDrawing(
    { check, setup: { machine, options: optionsFromPairs(check, pairs), instrument: null } },
    "file",
  );
  try {
    writeFileSync(to, text);
  } catch (error) {
    throw new BadInput([
      refusal(
        "file-unwritable",
        { file: to },
        { file: to, reason: (error as NodeJS.ErrnoException).code ?? "unknown" },
      ),
    ]);
  }
  say(`The drawing is in ${to}.`);
}
