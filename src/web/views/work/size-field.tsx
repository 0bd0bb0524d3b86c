import { NumberField, TextField } from "../../parts/fields.tsx";
import { type TypedNumber, typedNumber } from "../../parts/typed-number.ts";
import type { PictureSize } from "../../worker/protocol-work.ts";

/** A size as it was typed: lengths with any unit, angles in degrees. */
export function typedSize(text: string, { unit, from, to }: Pick<PictureSize, "unit" | "from" | "to">): TypedNumber {
  if (unit !== "°") return typedNumber(text, { quantity: "length", from, to });
  if (text.trim() === "") return { value: null, problem: "" };
  const value = Number(text.trim().replace("°", "").replace(",", "."));
  const fits = Number.isFinite(value) && from <= value && value <= to;
  return fits ? { value, problem: "" } : { value: null, problem: `It has to lie between ${from} and ${to}°.` };
}

interface SizeFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly size: Pick<PictureSize, "unit" | "from" | "to">;
  readonly text: string;
  readonly onText: (text: string) => void;
}

/** A size that may stay empty: then it is the usual one. */
export function SizeField({ label, hint, size, text, onText }: SizeFieldProps) {
  const { unit, from, to } = size;
  if (unit !== "°") {
    const asked = { quantity: "length", from, to } as const;
    return <NumberField label={label} hint={hint} asked={asked} optional text={text} onText={onText} />;
  }
  const range = `${hint === undefined ? "" : `${hint} `}May stay empty; ${from} to ${to}°.`;
  return <TextField label={label} hint={range} text={text} problem={typedSize(text, size).problem} onText={onText} />;
}
