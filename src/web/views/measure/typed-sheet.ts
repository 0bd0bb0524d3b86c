import { type Signal, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { draftUnder, keepDraft } from "../../outbox/drafts.ts";
import { preferences, preferredUnit } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Answer, CheckPage, ReadMany, Told, TypedStation } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { entryText } from "./entry-text.ts";
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

/** What stands in the head of a sheet and goes with its run. */
export type Conditions = Readonly<Record<string, number>>;

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
  conditions: Conditions,
): Promise<void> {
  const typed = await readingsOf(page, sheet);
  if (typed === null) return;
  const by = preferences.value.by;
  const setup = { ...page.chosen, conditions: { ...page.chosen.conditions, ...conditions } };
  const answered = await ask("readMany", { machine, setup, readings: typed, by });
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
  return rows.map(([station, row]) => ({
    station,
    text:
      page.entry.kind === "verdict"
        ? (texts.value[row]?.[0] ?? "")
        : entryText(page.entry, texts.value[row] ?? []).replace(/^:$/, ""),
    ...(page.entry.unit !== "" && { unit: page.entry.unit }),
  }));
}
