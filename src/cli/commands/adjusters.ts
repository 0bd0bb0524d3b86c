import { type AdjusterRow, adjusterRows } from "../../app/adjuster-rows.ts";
import { changeAdjuster } from "../../app/change-adjuster.ts";
import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatNumber, formatTrimmed } from "../../core/base/number-format.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import type { Adjuster } from "../../core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../../core/machine/adjusters/catalogue.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { adjusterNamed } from "../named-adjuster.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { numberFrom } from "../typed-words.ts";

export interface AdjustersOptions {
  readonly range?: string;
  readonly uncertainty?: string;
  readonly minutes?: string;
  readonly available?: string;
  readonly pitch?: string;
  readonly usual?: boolean;
  readonly json?: boolean;
  readonly by?: string;
}

/** All places where the machine can be changed, or one of them; with figures of the user's own it is changed first. */
export function adjusters(file: string, text: string | undefined, options: AdjustersOptions): number {
  let session = openLogbook(file);
  const { range, uncertainty, minutes, available, pitch, usual } = options;
  const changes = [range, uncertainty, minutes, available, pitch].some((word) => word !== undefined) || usual === true;
  if (text === undefined && changes) {
    const reason = "nothing says which adjuster these figures are of";
    const expected = "kilter adjusters FILE ADJUSTER with the figures";
    throw new BadInput([refusal("command-misused", {}, { reason, expected, help: "kilter adjusters --help" })]);
  }
  if (text === undefined) {
    const rows = adjusterRows(session);
    if (options.json) sayJson(rows);
    else sayTable(rows);
    return 0;
  }
  const { id } = adjusterNamed(adjustersOf(session.machine), text);
  if (changes) session = change(file, session, id, options);
  const row = adjusterRows(session).find(({ adjuster }) => adjuster === id) as AdjusterRow;
  if (options.json) sayJson(row);
  else sayOne(session, row);
  return 0;
}

function sayTable(rows: readonly AdjusterRow[]): void {
  const number = (value: number) => formatTrimmed(value, 2);
  say(
    table(
      [
        { head: "" },
        { head: "adjuster" },
        { head: "plus", gives: true },
        { head: "reach", right: true },
        { head: "in" },
        { head: "min", right: true },
        { head: "there", right: true },
        { head: "", gives: true },
      ],
      rows.map((row) => [
        row.letter,
        row.adjuster,
        row.plus === "" ? row.words : row.plus,
        row.unit === "" ? "" : `${number(row.from)} … ${number(row.to)}`,
        row.unit,
        formatTrimmed(row.minutes, 1),
        row.packingMm === null ? "" : number(row.packingMm),
        row.locked !== null ? "locked" : row.available ? "" : "not there",
      ]),
    ),
  );
  say();
  say(wrap("Amounts are counted from where each stands now; “there” is the packing that lies there, mm."));
}

function sayOne({ machine, timeline }: Session, row: AdjusterRow): void {
  const adjuster = adjustersForTimeline(machine, timeline).find(({ id }) => id === row.adjuster) as Adjuster;
  const usual = adjustersOf(machine).find(({ id }) => id === row.adjuster) as Adjuster;
  const unit = row.unit === "" ? "" : ` ${row.unit}`;
  say(toned(`${row.letter}  ${row.adjuster}: ${row.words}`, "strong"));
  if (row.plus !== "") say(wrap(`Plus: ${row.plus}.`));
  say(wrap(`Loosened: ${adjuster.fasteners.words}.`));
  if (row.unit !== "") {
    say(wrap(`From where it stands now it goes from ${signed(row.from)} to ${signed(row.to)}${unit}.`));
  }
  if (row.packingMm !== null) say(`Lies there now: ${formatTrimmed(row.packingMm, 3)} mm.`);
  if (row.standardUncertainty > 0) {
    const own = row.standardUncertainty === usual.sd ? "" : `; usual is ${formatNumber(usual.sd, 2)}`;
    say(wrap(`Nipping up leaves ${formatNumber(row.standardUncertainty, 3)}${unit} to chance${own}.`));
  }
  for (const { by, words, wayMm } of row.turned) {
    const way = by === "step" ? `${formatTrimmed(1 / wayMm, 2)} steps a mm` : `${formatTrimmed(wayMm, 2)} mm a ${by}`;
    say(wrap(`By ${words}: ${way}.`));
  }
  say(`At the joint: ${formatTrimmed(row.minutes, 1)} min.`);
  if (row.readAgain.length > 0) say(wrap(`To be read again after it: ${row.readAgain.join(", ")}.`));
  if (!row.available) say("This machine has no such place, or nobody gets at it.");
  if (row.locked !== null) say(wrap(`Locked: ${row.locked}`));
  const { alsoLoose, cautions } = adjuster.whatHolds;
  for (const sentence of [...(alsoLoose === null ? [] : [alsoLoose]), ...cautions])
    say(wrap(`- ${sentence}`, undefined, "  "));
}

function change(file: string, session: Session, id: string, options: AdjustersOptions): Session {
  const { range, uncertainty, minutes, available, pitch, usual = false } = options;
  const event = changeAdjuster(session, new Stamp(hereAndNow, options.by), id, {
    usual,
    ...(range !== undefined && { range: rangeFrom(range) }),
    ...(uncertainty !== undefined && { sd: numberFrom(uncertainty, "--uncertainty", "a number such as 0.03") }),
    ...(minutes !== undefined && { minutes: numberFrom(minutes, "--minutes", "minutes such as 12") }),
    ...(available !== undefined && { available: yesOrNo(available) }),
    ...(pitch !== undefined && { screwPitchMm: numberFrom(pitch, "--pitch", "a pitch in mm such as 0.8") }),
  });
  const next = accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  return next;
}

function rangeFrom(text: string): readonly [number, number] {
  const parts = text.split(":").map((part) => numberOrNull(part));
  const [from, to] = parts;
  if (parts.length !== 2 || from == null || to == null) {
    throw new BadInput([refusal("word-form", {}, { word: text, of: "--range", expected: "two numbers as −0.4:0.4" })]);
  }
  return [from, to];
}

function yesOrNo(text: string): boolean {
  if (text === "yes" || text === "no") return text === "yes";
  throw new BadInput([refusal("word-unknown", {}, { word: text, of: "--available", listed: "yes, no", meant: "" })]);
}

function signed(value: number): string {
  return `${value > 0 ? "+" : ""}${formatTrimmed(value, 3)}`;
}
