import { type Signal, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { draftUnder, keepDraft } from "../../outbox/drafts.ts";
import { preferences, preferredUnit } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Answer, CheckPage, ReadMany, Told, TypedStation } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { entryText } from "./entry-text.ts";
import type { KeptRun } from "./kept-runs.tsx";
import { choiceFromQuery } from "./setup-query.ts";

/** What has been typed of one check's sheet, and how it would sit; nothing of it is kept yet. */
export interface TypedSheet {
  readonly machine: string;
  readonly unit: Signal<string | null>;
  /** By the key of a station, or AGAIN. */
  readonly texts: Signal<Readonly<Record<string, readonly string[]>>>;
  /** Which of them were typed into by hand: what was filled in is nobody's reading. */
  readonly typed: Signal<Readonly<Record<string, readonly boolean[]>>>;
  readonly pasted: Signal<string>;
  readonly fileName: Signal<string>;
  readonly told: Signal<readonly Told[]>;
  readonly tried: Signal<ReadMany | null>;
}

/** Stands for the first station, read once more at the end. No station of a check has such a key. */
export const AGAIN = "\u21ba";

/** What stands in the head of a sheet and goes with its runs. */
export interface SheetHead {
  /** As the device's calendar writes it; today where nothing else is said. */
  readonly date: string;
  readonly by: string;
  readonly conditions: Readonly<Record<string, number>>;
}

export function emptyHead(): SheetHead {
  return { date: today(), by: preferences.value.by, conditions: {} };
}

/** The date here and now, as a field for dates has it. */
export function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** A day that has not come yet, or none at all, cannot stand on a sheet that was filled in. */
export function isDay(date: string): boolean {
  return date !== "" && date <= today();
}

/** Of another day than today the hour is not known: it counts as noon, one sheet after the other. */
function momentOf(date: string, place: number): { readonly at?: number } {
  return date === today() ? {} : { at: new Date(`${date}T12:00`).getTime() + place * 60_000 };
}

interface SheetDraft {
  readonly unit: string | null;
  readonly texts: Readonly<Record<string, readonly string[]>>;
  readonly typed: Readonly<Record<string, readonly boolean[]>>;
  readonly pasted: string;
  readonly fileName: string;
}

/** The sheet of one check of one machine, with what was being typed when it was last left. */
export function typedSheetOf(machine: string, check: string): TypedSheet {
  const draft = draftUnder<SheetDraft>(draftName(machine, check));
  return {
    machine,
    unit: signal(draft?.unit ?? preferredUnit()),
    texts: signal(draft?.texts ?? {}),
    typed: signal(draft?.typed ?? {}),
    pasted: signal(draft?.pasted ?? ""),
    fileName: signal(draft?.fileName ?? "pasted table"),
    told: signal([]),
    tried: signal(null),
  };
}

/** Keeps what is typed into a sheet over a reload, as long as it is shown. */
export function useKept(sheet: TypedSheet, machine: string, check: string): void {
  const keep = () => {
    const { unit, texts, typed, pasted, fileName } = sheet;
    if (isEmpty(sheet)) return null;
    return {
      unit: unit.value,
      texts: texts.value,
      typed: typed.value,
      pasted: pasted.value,
      fileName: fileName.value,
    };
  };
  useEffect(() => keepDraft<SheetDraft>(() => draftName(machine, check), keep), [sheet]);
}

function draftName(machine: string, check: string): string {
  return `sheet ${machine} ${check}`;
}

export function useCheckPage(
  machine: string,
  check: string,
  query: URLSearchParams,
  { unit }: TypedSheet,
): Answer<CheckPage> | null {
  return useAnswer("check", { machine, choice: choiceFromQuery(check, query), unit: unit.value }).value;
}

export function forgetTrial({ tried, told }: TypedSheet): void {
  tried.value = null;
  told.value = [];
}

/** Nothing of it is left to be typed: it has been kept. */
export function clearSheet(sheet: TypedSheet): void {
  forgetTrial(sheet);
  sheet.texts.value = {};
  sheet.typed.value = {};
  sheet.pasted.value = "";
}

/** What was tried, as it is once it has been kept; what is typed in the form now can be put back into it. */
export function keptFrom(page: CheckPage, sheet: TypedSheet, { verdicts }: ReadMany): KeptRun {
  const [texts, typed, pasted] = [sheet.texts.value, sheet.typed.value, sheet.pasted.value];
  const restore = () => {
    sheet.texts.value = texts;
    sheet.typed.value = typed;
    sheet.pasted.value = pasted;
  };
  return { run: verdicts[0]?.run ?? "", page, verdicts, restore };
}

export function isEmpty({ texts, pasted }: TypedSheet): boolean {
  return (
    pasted.value.trim() === "" && Object.values(texts.value).every((row) => row.every((text) => text.trim() === ""))
  );
}

/** First it is only tried: how every reading would sit is seen before anything is kept. */
export async function trySheet(
  machine: string,
  page: CheckPage,
  sheet: TypedSheet,
  { date, by, conditions }: SheetHead,
  place = 0,
): Promise<void> {
  const typed = await readingsOf(page, sheet);
  if (typed === null) return;
  const setup = { ...page.chosen, conditions: { ...page.chosen.conditions, ...conditions } };
  const answered = await ask("readMany", { machine, setup, readings: typed, by: by.trim(), ...momentOf(date, place) });
  sheet.told.value = answered.told;
  sheet.tried.value = answered.ok ? answered.value : null;
}

async function readingsOf(page: CheckPage, sheet: TypedSheet): Promise<readonly TypedStation[] | null> {
  const { pasted, fileName, told, texts } = sheet;
  if (pasted.value.trim() !== "") {
    const table = await ask("table", { text: pasted.value, name: fileName.value, unit: page.entry.unit });
    told.value = table.told;
    return table.ok ? table.value : null;
  }
  const rows = page.stations.map(({ key }) => [key, key]);
  if (page.returns) rows.push([page.stations[0].key, AGAIN]);
  return rows.map(([station, row], i) => ({
    station,
    line: i + 1,
    text:
      page.entry.kind === "verdict"
        ? (texts.value[row]?.[0] ?? "")
        : entryText(page.entry, texts.value[row] ?? []).replace(/^:$/, ""),
    ...(page.entry.unit !== "" && { unit: page.entry.unit }),
  }));
}

/** What is said of the rows of a form, by their place in it; of a pasted table its lines are said. */
export function toldOfRow({ told, pasted }: TypedSheet, place: number): boolean {
  return pasted.value.trim() === "" && told.value.some(({ refuses, line }) => refuses && line === place + 1);
}
