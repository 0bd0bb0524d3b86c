import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { isOwner } from "../../live/feed.ts";
import { record } from "../../outbox/outbox.ts";
import { toNextField } from "../../parts/enter-key.ts";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Told } from "../../worker/protocol.ts";
import type { AdjusterPage, AmountMade, MoveNoted, PlannedMovePage, WhatIf } from "../../worker/protocol-moves.ts";
import { AmountFields, emptyAmount, type TypedAmount, typedAmount } from "./amount-fields.tsx";
import { emptyGauge, GaugeFields, gaugeRead, type TypedGauge } from "./gauge-fields.tsx";
import { type WayOut, WaysOut } from "./ways-out.tsx";

interface DoneBarProps {
  readonly machine: string;
  readonly page: AdjusterPage;
  /** What is tried, to be gone back to. */
  readonly what: WhatIf;
  /** Null where the plan does not move it. */
  readonly move: PlannedMovePage | null;
  readonly isReady: boolean;
  readonly onNoted: (noted: MoveNoted) => void;
}

/** How it was made, what the gauge read, and the three answers to a move, always in reach at the bottom. */
export function DoneBar({ machine, page, what, move, isReady, onNoted }: DoneBarProps) {
  const otherwise = useSignal(false);
  const amount = useSignal<TypedAmount>(emptyAmount);
  const gauge = useSignal<TypedGauge>(emptyGauge);
  const told = useSignal<readonly Told[]>([]);
  const busy = useSignal(false);
  const wayOut = useSignal<WayOut | null>(null);
  const panel = useRef<HTMLDivElement>(null);
  const doneButton = useRef<HTMLButtonElement>(null);
  const asksAmount = page.asks.kind !== "none";
  const isOtherwise = asksAmount && (otherwise.value || move === null);
  useEffect(() => {
    if (wayOut.value === null) return;
    panel.current?.scrollIntoView({ block: "center" });
    panel.current?.querySelector<HTMLElement>("button, input")?.focus({ preventScroll: true });
  }, [wayOut.value]);

  async function done() {
    if (busy.value) return;
    busy.value = true;
    try {
      const made: AmountMade = isOtherwise
        ? typedAmount(page.asks, amount.value)
        : move === null
          ? { kind: "none" }
          : { kind: "planned", amount: move.amount };
      const answer = await ask("noteMove", {
        machine,
        adjuster: page.place.id,
        made,
        planned: move === null || !asksAmount ? null : move.amount,
        leaves: move?.leaves ?? null,
        gauge: move?.stop ? gaugeRead(move.stop, gauge.value) : null,
        by: preferences.value.by,
      });
      told.value = answer.told;
      if (!answer.ok) return;
      await record(machine, answer.value.events);
      onNoted(answer.value);
    } finally {
      busy.value = false;
    }
  }

  return (
    <>
      <form
        class="how-made"
        onSubmit={(event) => event.preventDefault()}
        onKeyDown={(event) => {
          const field = event.target;
          if (event.key !== "Enter" || event.isComposing) return;
          if (!(field instanceof HTMLInputElement) || !field.matches("input:not([type])")) return;
          event.preventDefault();
          // A move is noted by its button alone: Enter leads there and does not press it.
          if (!toNextField(field, event.currentTarget)) doneButton.current?.focus();
        }}
      >
        <h2>When it is done</h2>
        {move?.stop && <GaugeFields machine={machine} stop={move.stop} entry={move.stop.entry} typed={gauge} />}
        {asksAmount && move !== null && (
          <fieldset class="choice">
            <legend>How far it was moved</legend>
            <div class="answers">
              {[false, true].map((answer) => (
                <label key={String(answer)} class={otherwise.value === answer ? "chosen" : ""}>
                  <input
                    type="radio"
                    name="how-far"
                    checked={otherwise.value === answer}
                    onChange={() => {
                      otherwise.value = answer;
                    }}
                  />
                  <span>{answer ? "otherwise" : `as planned: ${move.amountWords}`}</span>
                </label>
              ))}
            </div>
          </fieldset>
        )}
        {isOtherwise && <AmountFields asks={page.asks} typed={amount} />}
      </form>
      <div class="way-out-place" ref={panel}>
        {wayOut.value !== null && (
          <WaysOut
            machine={machine}
            page={page}
            what={what}
            wayOut={wayOut.value}
            onClose={() => {
              wayOut.value = null;
            }}
          />
        )}
      </div>
      <div class="act-bar">
        <ToldList told={told.value} />
        <div class="act-row">
          <button
            type="button"
            ref={doneButton}
            class={isReady ? "act" : ""}
            disabled={busy.value || !isReady}
            onClick={() => void done()}
          >
            {isOtherwise ? (move === null ? "Note the move" : "Done, otherwise") : "Done"}
          </button>
          {isOwner.value && (
            <>
              <button
                type="button"
                aria-expanded={wayOut.value === "lock"}
                onClick={() => {
                  wayOut.value = wayOut.value === "lock" ? null : "lock";
                }}
              >
                {page.place.locked === null ? "Keep as it is" : "Free it"}
              </button>
              <button
                type="button"
                aria-expanded={wayOut.value === "cannot"}
                onClick={() => {
                  wayOut.value = wayOut.value === "cannot" ? null : "cannot";
                }}
              >
                {page.place.available ? "Can’t do it" : "It is there"}
              </button>
            </>
          )}
        </div>
      </div>
    </>
  );
}
