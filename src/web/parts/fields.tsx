import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { type NumberAsked, rangeInWords, typedNumber } from "./typed-number.ts";

interface NumberFieldProps {
  readonly label: string;
  /** Says where it is measured, if the label alone does not. */
  readonly hint?: string;
  readonly text: string;
  readonly asked: NumberAsked;
  readonly optional?: boolean;
  /** What is wrong with it beyond being no number in the range. */
  readonly problem?: string;
  readonly onText: (text: string) => void;
}

/**
 * A number with its unit and range said; comma or point, inches and fractions are taken. It opens the whole keyboard: a
 * telephone's keys for numbers have neither a minus nor a stroke, and no letters for a unit.
 */
export function NumberField({ label, hint, text, asked, optional = false, problem = "", onText }: NumberFieldProps) {
  const id = useId();
  const wrong = typedNumber(text, asked).problem || problem;
  return (
    <div class="form-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        class="number"
        autocomplete="off"
        value={text}
        aria-describedby={`${id}-hint`}
        aria-invalid={wrong !== ""}
        onInput={(event) => onText(event.currentTarget.value)}
      />
      <p class="note" id={`${id}-hint`}>
        {hint === undefined ? "" : `${hint} `}
        {optional ? "May stay empty; " : ""}
        {rangeInWords(asked)}.{wrong !== "" && <strong class="wrong"> {wrong}</strong>}
      </p>
    </div>
  );
}

interface PlainNumberProps {
  readonly label: string;
  readonly range: { readonly unit: string; readonly from: number; readonly to: number };
  readonly optional?: boolean;
  readonly start: string;
  /** Told only what lies in the range; null where an optional field is empty. */
  readonly onNumber: (value: number | null) => void;
}

/** A number in the one unit that stands beside it. */
export function PlainNumber({ label, range: { unit, from, to }, optional = false, start, onNumber }: PlainNumberProps) {
  const text = useSignal(start);
  const value = Number(text.value.trim().replace(",", ".").replace("−", "-"));
  const isEmpty = text.value.trim() === "";
  const fits = isEmpty ? optional : Number.isFinite(value) && from <= value && value <= to;
  return (
    <TextField
      label={label}
      hint={`${optional ? "May stay empty; " : ""}${String(from).replace("-", "−")} to ${to} ${unit}.`}
      text={text.value}
      problem={fits ? "" : "It has to be a number in this range."}
      onText={(typed) => {
        text.value = typed;
        const number = Number(typed.trim().replace(",", ".").replace("−", "-"));
        if (typed.trim() === "") {
          if (optional) onNumber(null);
        } else if (Number.isFinite(number) && from <= number && number <= to) onNumber(number);
      }}
    />
  );
}

interface TextFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly text: string;
  readonly problem?: string;
  readonly most?: number;
  readonly onText: (text: string) => void;
}

export function TextField({ label, hint = "", text, problem = "", most = 120, onText }: TextFieldProps) {
  const id = useId();
  return (
    <div class="form-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        autocomplete="off"
        maxLength={most}
        value={text}
        aria-describedby={`${id}-hint`}
        aria-invalid={problem !== ""}
        onInput={(event) => onText(event.currentTarget.value)}
      />
      <p class="note" id={`${id}-hint`}>
        {hint}
        {problem !== "" && <strong class="wrong"> {problem}</strong>}
      </p>
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly hint?: ComponentChildren;
  readonly value: T;
  readonly answers: readonly (readonly [value: T, words: string])[];
  readonly onChoose: (value: T) => void;
}

/** A few answers side by side, each as large as a gloved finger. */
export function Choice<T extends string>({ label, hint, value, answers, onChoose }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {hint !== undefined && <p class="note">{hint}</p>}
      <div class="answers">
        {answers.map(([answer, words]) => (
          <label key={answer} class={answer === value ? "chosen" : ""}>
            <input type="radio" name={name} checked={answer === value} onChange={() => onChoose(answer)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** One of many answers. */
export function Select<T extends string>({ label, hint, value, answers, onChoose }: ChoiceProps<T>) {
  const id = useId();
  return (
    <div class="form-field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChoose(event.currentTarget.value as T)}>
        {answers.map(([answer, words]) => (
          <option key={answer} value={answer}>
            {words}
          </option>
        ))}
      </select>
      {hint !== undefined && <p class="note">{hint}</p>}
    </div>
  );
}
