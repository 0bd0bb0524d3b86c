import { join } from "node:path";
import { assess } from "../../app/assess.ts";
import { openSession } from "../../app/session.ts";
import { readBytes } from "../logbook-file.ts";
import { packageFile } from "../package-file.ts";
import { accepted } from "../report.ts";
import { say, wrap } from "../terminal.ts";
import { writeExport } from "./export.ts";
import { sayFindings } from "./findings.ts";

/** The whole job on the machine that comes with the program: findings here, drawings and the sheet in a folder. */
export function demonstrate(options: { to: string }): number {
  const session = accepted(
    openSession(readBytes(packageFile("catalog/demonstration/shared-workshop.jsonl")), "shared-workshop.jsonl"),
  );
  const assessment = assess(session.timeline);
  sayFindings(assessment, false);
  const count = writeExport(assessment, options.to);
  say();
  say(
    wrap(
      `${count} files are in ${options.to}. Open ${join(options.to, "sheet.html")} in a browser for the drawing and the whole list.`,
    ),
  );
  say(
    wrap("This machine and its readings are invented. `kilter create --help` says how to begin a logbook of your own."),
  );
  return 0;
}
