import type { OptionValue, SetupChoice } from "../../worker/protocol.ts";

const conditionKeys = {
  parked: "carriageParkedMm",
  hose: "hose",
  temperature: "temperatureC",
  humidity: "humidityPercent",
  note: "note",
} as const;
const numbers: ReadonlySet<string> = new Set(["carriageParkedMm", "temperatureC", "humidityPercent"]);

/** How a run is set up, out of an address: so that it can be linked to, and is the same after a reload. */
export function choiceFromQuery(
  check: string,
  query: URLSearchParams,
): Partial<SetupChoice> & { readonly check: string } {
  const objects: Record<string, string> = {};
  const options: Record<string, OptionValue> = {};
  const conditions: Record<string, string | number> = {};
  for (const [key, text] of query) {
    if (key.startsWith("object.")) objects[key.slice(7)] = text;
    else if (key.startsWith("set.")) options[key.slice(4)] = numberOr(text);
    else if (Object.hasOwn(conditionKeys, key)) {
      const name = conditionKeys[key as keyof typeof conditionKeys];
      if (!numbers.has(name)) conditions[name] = text;
      else if (typeof numberOr(text) === "number") conditions[name] = numberOr(text);
    }
  }
  const instrument = query.get("with");
  return { check, objects, options, conditions, ...(instrument !== null && { instrument }) };
}

/** The same back into an address, "?" included where there is anything. */
export function queryFromChoice({ instrument, objects, options, conditions }: Partial<SetupChoice>): string {
  const query = new URLSearchParams();
  if (instrument) query.set("with", instrument);
  for (const [role, object] of Object.entries(objects ?? {})) query.set(`object.${role}`, object);
  for (const [key, value] of Object.entries(options ?? {})) query.set(`set.${key}`, String(value));
  for (const [key, name] of Object.entries(conditionKeys)) {
    const value = conditions?.[name];
    if (value !== undefined && value !== "") query.set(key, String(value));
  }
  const text = query.toString();
  return text === "" ? "" : `?${text}`;
}

function numberOr(text: string): string | number {
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}
