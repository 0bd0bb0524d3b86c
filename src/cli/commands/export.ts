import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { type Assessment, assess } from "../../app/assess.ts";
import { exportedFiles } from "../../app/exported-files.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { openLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { reasonOf } from "../system-reason.ts";
import { counted, say, wrap } from "../terminal.ts";

/** Writes everything that can be handed on into a folder: sheet, drawings, readings, findings. */
export function exportLogbook(file: string, options: { to: string }): number {
  const assessment = assess(openLogbook(file).timeline);
  const count = writeExport(assessment, options.to);
  say(
    wrap(
      `${counted(count, "file is", "files are")} in ${options.to}: open ${join(options.to, "sheet.html")} for the whole.`,
    ),
  );
  return 0;
}

export function writeExport(assessment: Assessment, folder: string): number {
  const files = exportedFiles(assessment);
  try {
    for (const { name, text } of files) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), text);
    }
  } catch (error) {
    throw new BadInput([refusal("file-unwritable", { file: folder }, { file: folder, reason: reasonOf(error) })]);
  }
  return files.length;
}
