import { checks } from "../core/checks/catalogue.ts";
import type { Setup } from "../core/checks/check.ts";
import { checkSetupDrawing } from "../core/drawing/check-setup.ts";
import { setupOfRun } from "../core/fit/observations.ts";
import { stationFromKey } from "../core/fit/station-key.ts";
import type { Entry } from "../core/instruments/entry.ts";
import type { Assessment } from "./assess.ts";
import { carriersOfFinding, historyOfFinding } from "./drawn-finding.ts";
import { drawnMachine } from "./drawn-machine.ts";
import { residualsOfRun } from "./drawn-trust.ts";
import { findingsAsJson } from "./findings-json.ts";
import { sheetPage } from "./sheet.ts";

export interface ExportedFile {
  readonly name: string;
  readonly text: string;
}

/** The sheet, the machine's drawing, the set-up of every check of this machine, the readings and the findings. */
export function exportedFiles(assessment: Assessment): readonly ExportedFile[] {
  const { machine } = assessment;
  return [
    { name: "sheet.html", text: sheetPage(assessment) },
    { name: "machine.svg", text: drawnMachine(assessment, "file") },
    { name: "readings.csv", text: readingsTable(assessment) },
    { name: "findings.json", text: `${JSON.stringify(findingsAsJson(assessment), null, 2)}\n` },
    ...assessment.trust.runs.map(({ run }) => ({
      name: `residuals/${run.check}-${run.id.slice(-6)}.svg`,
      text: residualsOfRun(assessment, run.id, "file"),
    })),
    ...assessment.findings
      .filter(({ verdict }) => verdict !== null)
      .flatMap((result) => [
        { name: `findings/${result.finding.id}-history.svg`, text: historyOfFinding(assessment, result) },
        { name: `findings/${result.finding.id}-carried-by.svg`, text: carriersOfFinding(assessment, result) },
      ]),
    ...checks
      .filter(({ layouts }) => layouts.includes(machine.layout.id))
      .map((check) => {
        const setup: Setup = { machine, options: {}, instrument: null };
        return { name: `checks/${check.id}.svg`, text: checkSetupDrawing({ check, setup }, "file") };
      }),
  ];
}

/** One reading a line, in core units, with the place in the machine's coordinates; the table that `read --csv` takes back. */
export function readingsTable({ timeline, machine }: Assessment): string {
  const runs = new Map(timeline.runs.map((run) => [run.id, run]));
  const lines = timeline.readings.map((reading) => {
    const run = runs.get(reading.run);
    const check = run && checks.find(({ id }) => id === run.check);
    const station = run && check ? stationFromKey(check, setupOfRun(machine, timeline, run), reading.station) : null;
    const unit = check?.quantity === "length" ? "mm" : check?.quantity === "slope" ? "mm/m" : "";
    const [x, y, z] = (check?.kind === "geometric" && station?.at) || ["", "", ""];
    const state = reading.withdrawn !== null || run?.withdrawn ? "withdrawn" : "";
    return [
      reading.id,
      run?.check ?? "",
      run?.id ?? "",
      reading.station,
      x,
      y,
      z,
      reading.entries.map(cell).join(":"),
      unit,
      state,
    ]
      .map(quoted)
      .join(",");
  });
  return `id,check,run,station,x,y,z,reading,unit,state\n${lines.join("\n")}\n`;
}

function cell(entry: Entry): string {
  const text = (value: number) => String(Number(value.toFixed(6)));
  switch (entry.form) {
    case "value":
      return text(entry.value);
    case "interval":
      return `${text(entry.goes)}/${text(entry.doesNotGo)}`;
    case "atLeast":
      return `>${text(entry.bound)}`;
    case "atMost":
      return `<${text(entry.bound)}`;
    case "verdict":
      return entry.passed ? "yes" : "no";
  }
}

function quoted(value: string | number): string {
  const text = String(value);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
