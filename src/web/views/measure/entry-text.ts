import type { EntryForm } from "../../worker/protocol.ts";

/** One field of a station: which entry it belongs to, and what it asks for. */
export interface EntryField {
  readonly key: string;
  readonly label: string;
  readonly asks: "value" | "goes" | "doesNotGo";
  readonly part: number;
}

/** The fields that a station shows, in the order in which Enter goes through them. */
export function fieldsOf({ kind, parts, order }: EntryForm): readonly EntryField[] {
  if (kind === "verdict") return [];
  return order.flatMap((part): EntryField[] => {
    const name = parts[part];
    const of = (words: string) => (name === "" ? words : `${name}, ${words}`);
    if (kind === "number") return [{ key: `${part}`, label: name === "" ? "reading" : name, asks: "value", part }];
    return [
      { key: `${part} goes`, label: of("goes"), asks: "goes", part },
      { key: `${part} doesNotGo`, label: of("does not go"), asks: "doesNotGo", part },
    ];
  });
}

/** The keys that a telephone opens for a field: those for numbers alone have neither a minus nor a stroke everywhere. */
export function keysFor({ signed, unit }: EntryForm): "decimal" | "text" {
  return signed || unit === "in" ? "text" : "decimal";
}

/** The field that Enter leads to; null where the station is whole. What does not go need not be typed. */
export function nextField(fields: readonly EntryField[], from: number): number | null {
  const next = fields.findIndex(({ asks, part }, i) => i > from && asks !== "doesNotGo" && part !== fields[from].part);
  return next < 0 ? null : next;
}

/** What was typed into the fields as one text, as a table's cell would hold it. */
export function entryText(form: EntryForm, texts: readonly string[]): string {
  const fields = fieldsOf(form);
  return form.parts
    .map((_, part) => {
      const of = (asks: EntryField["asks"]) =>
        (texts[fields.findIndex((field) => field.part === part && field.asks === asks)] ?? "").trim();
      if (form.kind === "number") return of("value");
      const [goes, doesNotGo] = [of("goes"), of("doesNotGo")];
      if (goes === "") return doesNotGo === "" ? "" : `<${doesNotGo}`;
      // Edges that touch leave no gap, and nothing thicker had to be tried.
      if (doesNotGo === "" || Number(goes.replace(",", ".")) === 0) return goes;
      // A stroke between two whole millimetres could be a fraction; a decimal mark says that it is a pair.
      const pair = `${goes}/${doesNotGo}`;
      return form.unit === "mm" && !/[.,]/.test(pair) ? `${goes}.0/${doesNotGo}` : pair;
    })
    .join(":");
}
