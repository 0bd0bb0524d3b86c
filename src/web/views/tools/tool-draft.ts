import type { Draft } from "../../worker/protocol.ts";
import type { LeavesRead, ToolKind, ToolStatement } from "../../worker/protocol-tools.ts";

export type KindOfTool = ToolKind & { readonly what: "instrument" | "object" };
type Texts = Readonly<Record<string, string>>;

/** What is wrong with one statement as it is typed; the worker says it of leaves. */
export function problemOf(texts: Texts, { name, form }: ToolStatement): string {
  const text = (texts[name] ?? "").trim();
  const doubt = (texts[`${name} U`] ?? "").trim();
  if (form === "leaves" || (text === "" && doubt === "")) return "";
  if (numberOf(text) === null) return "A number is missing, with a comma or a point.";
  if (form === "stated" && (numberOf(doubt) ?? 0) <= 0)
    return "It needs its U: an uncertainty of nothing is never true.";
  return "";
}

/**
 * The event that states a tool: what the form asks for as it is typed, and whatever else was stated of it as it was. An
 * empty field is not stated. `leaves` are those of a set that is not the usual one.
 */
export function toolDraft(
  kind: KindOfTool,
  stated: Readonly<Record<string, unknown>>,
  own: { readonly name: string; readonly serial: string },
  texts: Texts,
  leaves: LeavesRead | null,
): Draft {
  const asked = new Set(kind.statements.map(({ name }) => name));
  const kept = (record: unknown) =>
    Object.fromEntries(Object.entries(record ?? {}).filter(([name]) => !asked.has(name)));
  const { name: _name, serial: _serial, markedIn: unit, figures, stated: before, ...others } = stated;
  // The unit of a set goes with its list.
  const markedIn = kind.largestStack === null ? unit : leaves?.markedIn;
  const parts: Record<ToolStatement["into"], Record<string, unknown>> = {
    figures: kept(figures),
    stated: kept(before),
    nominal: kept(others),
  };
  for (const { name, form, into } of kind.statements) {
    const value = numberOf(texts[name]);
    if (form === "leaves" || value === null) continue;
    parts[into][name] =
      form === "stated" ? { value, expandedUncertainty: numberOf(texts[`${name} U`]), coverageFactor: 2 } : value;
  }
  if (leaves !== null) parts.figures.leaves = leaves.leaves;
  const tool = {
    ...parts.nominal,
    kind: kind.id,
    ...(own.name !== "" && { name: own.name }),
    ...(own.serial !== "" && { serial: own.serial }),
    ...(typeof markedIn === "string" && { markedIn }),
    ...(filled(parts.figures) && { figures: parts.figures }),
    ...(filled(parts.stated) && { stated: parts.stated }),
  };
  return (
    kind.what === "instrument" ? { kind: "instrument-added", instrument: tool } : { kind: "object-added", object: tool }
  ) as Draft;
}

/** The kind's own id for the first of a kind, then with a number. */
export function freeId(kind: string, taken: ReadonlySet<string>): string {
  for (let n = 1; ; n++) {
    const id = n === 1 ? kind : `${kind}-${n}`;
    if (!taken.has(id)) return id;
  }
}

function filled(record: object): boolean {
  return Object.keys(record).length > 0;
}

function numberOf(text: string | undefined): number | null {
  const bare = (text ?? "").trim().replace(",", ".").replace("−", "-");
  return /^-?\d+(\.\d+)?$/.test(bare) ? Number(bare) : null;
}
