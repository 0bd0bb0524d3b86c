import type { Signal } from "@preact/signals";
import { Choice, TextField } from "../../parts/fields.tsx";
import type { AmountAsked, AmountMade } from "../../worker/protocol-moves.ts";

/** What was typed of an amount, whichever way it is asked for. */
export interface TypedAmount {
  readonly text: string;
  readonly sign: 1 | -1;
  readonly laid: string;
  readonly takenOut: string;
}

export const emptyAmount: TypedAmount = { text: "", sign: 1, laid: "", takenOut: "" };

/** How far it was moved, asked as the hand does it: a way and where to, leaves, or the number that was typed in. */
export function AmountFields({ asks, typed }: { asks: AmountAsked; typed: Signal<TypedAmount> }) {
  const set = (some: Partial<TypedAmount>) => {
    typed.value = { ...typed.value, ...some };
  };
  switch (asks.kind) {
    case "none":
      return null;
    case "way":
      return (
        <div class="field-pair">
          <TextField
            label={`How far ${asks.of} went, mm`}
            hint={asks.over === "" ? "At the screws, from where it stood." : `From where it stood, ${asks.over}.`}
            text={typed.value.text}
            most={12}
            onText={(text) => set({ text })}
          />
          <Choice
            label="Which way"
            value={typed.value.sign === 1 ? "plus" : "minus"}
            answers={[
              ["plus", asks.plus],
              ["minus", asks.minus],
            ]}
            onChoose={(way) => set({ sign: way === "plus" ? 1 : -1 })}
          />
        </div>
      );
    case "leaves":
      return (
        <>
          {asks.places.length > 1 && (
            <Choice
              label="Where"
              value={typed.value.sign === 1 ? "plus" : "minus"}
              answers={asks.places.map(({ sign, words }) => [sign === 1 ? "plus" : "minus", words] as const)}
              onChoose={(way) => set({ sign: way === "plus" ? 1 : -1 })}
            />
          )}
          <div class="field-pair">
            <TextField
              label="Leaves laid, mm"
              hint={`${asks.places.length === 1 ? `${upperFirst(asks.places[0].words)}. ` : ""}Such as 0.3 0.05, or 0.1x2.`}
              text={typed.value.laid}
              most={60}
              onText={(laid) => set({ laid })}
            />
            <TextField
              label="Leaves taken out, mm"
              hint="Empty where nothing came out."
              text={typed.value.takenOut}
              most={60}
              onText={(takenOut) => set({ takenOut })}
            />
          </div>
        </>
      );
    case "steps":
      return (
        <TextField
          label={asks.now === "" ? "What the number was multiplied by" : "The number that stands in the controller now"}
          hint={asks.now === "" ? "Such as 1.0012." : `It was ${asks.now}.`}
          text={typed.value.text}
          most={20}
          onText={(text) => set({ text })}
        />
      );
  }
}

export function typedAmount(asks: AmountAsked, { text, sign, laid, takenOut }: TypedAmount): AmountMade {
  switch (asks.kind) {
    case "none":
      return { kind: "none" };
    case "way":
      return { kind: "way", text, sign };
    case "leaves":
      return { kind: "leaves", laid, takenOut, sign: asks.places.length === 1 ? 1 : sign };
    case "steps":
      return { kind: "steps", text };
  }
}

function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
