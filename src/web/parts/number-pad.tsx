import type { ComponentChildren } from "preact";

/** What a key of the pad means: what is typed, or one of the acts. */
export type PadKey = string;

interface NumberPadProps {
  /** The key beside 4, 5, 6: a further leaf, a sign or a fraction, whichever makes sense. */
  readonly special: { readonly key: PadKey; readonly words: string; readonly says: string } | null;
  /** A space between an inch and its fraction. */
  readonly hasSpace: boolean;
  /** With leaves: that not even the thinnest goes. */
  readonly onNoneGoes?: (() => void) | undefined;
  readonly enter: ComponentChildren;
  readonly onKey: (key: PadKey) => void;
}

/** Digits as large as a glove needs them. The field keeps the focus, so that a keyboard goes on where the pad stops. */
export function NumberPad({ special, hasSpace, onNoneGoes, enter, onKey }: NumberPadProps) {
  const key = (press: PadKey, words: ComponentChildren, props: { says?: string; class?: string } = {}) => (
    <button
      type="button"
      key={press}
      class={props.class}
      aria-label={props.says}
      onPointerDown={(event) => event.preventDefault()}
      onClick={() => onKey(press)}
    >
      {words}
    </button>
  );
  return (
    <fieldset class="pad">
      <legend class="hide">Number pad</legend>
      {["1", "2", "3"].map((digit) => key(digit, digit))}
      {key("Backspace", "Delete", { class: "word" })}
      {["4", "5", "6"].map((digit) => key(digit, digit))}
      {special ? key(special.key, special.words, { says: special.says, class: "word" }) : <span />}
      {["7", "8", "9"].map((digit) => key(digit, digit))}
      {key("Enter", enter, { class: "act enter" })}
      {key(".", ".", { says: "Decimal point" })}
      {key("0", "0", hasSpace || onNoneGoes ? {} : { class: "wide" })}
      {hasSpace && key(" ", "space", { class: "word" })}
      {onNoneGoes && (
        <button
          type="button"
          class="word"
          aria-label="No leaf goes"
          onPointerDown={(event) => event.preventDefault()}
          onClick={onNoneGoes}
        >
          none goes
        </button>
      )}
    </fieldset>
  );
}
