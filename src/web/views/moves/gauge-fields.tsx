import type { Signal } from "@preact/signals";
import { useId, useRef } from "preact/hooks";
import { FILLS_ITSELF } from "../../parts/enter-key.ts";
import { ask } from "../../worker/client.ts";
import type { EntryForm } from "../../worker/protocol.ts";
import type { GaugeRead, StopPage } from "../../worker/protocol-moves.ts";
import { entryText, fieldsOf, keysFor } from "../measure/entry-text.ts";
import { fillSecondLeaf, withTyped } from "../measure/second-leaf.ts";

type Part = "other" | "final" | "nipped" | "loose";

function labelOf(part: Part, { stationName, other, homesFirst }: StopPage): string {
  const then = homesFirst ? "Homed anew" : "Made fast";
  switch (part) {
    case "other":
      return other?.isBefore ? "It read before the joint was opened" : `${then}, at ${other?.name}`;
    case "final":
      return other === null || other.isBefore ? "It reads now, made fast" : `${then}, at ${stationName}`;
    case "nipped":
      return "With the screws nipped";
    case "loose":
      return "With the screws loose";
  }
}

/** What was typed of each reading, field by field. */
export type TypedGauge = Readonly<Record<Part, readonly string[]>>;

export const emptyGauge: TypedGauge = { other: [], final: [], nipped: [], loose: [] };

interface GaugeFieldsProps {
  readonly machine: string;
  readonly stop: StopPage;
  readonly entry: EntryForm;
  readonly typed: Signal<TypedGauge>;
}

/**
 * What the gauge read at the stopping place, with what it is held against where one reading alone says nothing. The last
 * reading is one like any other; with the screws loose and nipped it teaches what nipping up leaves to chance at this joint.
 */
export function GaugeFields({ machine, stop, entry, typed }: GaugeFieldsProps) {
  const of = (part: Part) => <PartFields machine={machine} stop={stop} entry={entry} part={part} typed={typed} />;
  return (
    <div class="gauge-fields">
      {stop.other !== null && of("other")}
      {of("final")}
      <p class="note">
        {stop.other === null || stop.other.isBefore ? `Station ${stop.stationName}. ` : ""}
        {stop.other === null
          ? "May stay empty; read, it counts like any other reading of "
          : "May stay empty; only both together say something, and then they count like any other readings of "}
        {stop.title.toLowerCase()}.
      </p>
      {entry.parts.length === 1 && (
        <details>
          <summary>Read with the screws loose and nipped as well</summary>
          <p class="note">Three such moves, and the plan knows how far this joint slips in your hands.</p>
          {of("loose")}
          {of("nipped")}
        </details>
      )}
    </div>
  );
}

function PartFields({ machine, stop, entry, part, typed }: GaugeFieldsProps & { readonly part: Part }) {
  const id = useId();
  const legend = labelOf(part, stop);
  const fields = fieldsOf(entry);
  const unit = entry.units.find((one) => one.id === entry.unit)?.symbol ?? "";
  const textOf = (field: number) => typed.peek()[part][field] ?? "";
  const put = (field: number, text: string) => {
    typed.value = { ...typed.peek(), [part]: fields.map((_, i) => (i === field ? text : textOf(i))) };
  };
  const byHand = useRef<readonly boolean[]>([]);
  const onTyped = (field: number, text: string) => {
    byHand.current = withTyped(byHand.current, field);
    put(field, text);
    if (fields[field].asks !== "goes") return;
    const second = field + 1;
    void fillSecondLeaf(
      {
        goes: () => textOf(field),
        isTheirs: () => (byHand.current[second] ?? false) || document.activeElement?.id === `${id}-${second}`,
        put: (leaf) => put(second, leaf),
      },
      (goes) => ask("nextLeaf", { machine, instrument: stop.instrument.id, goes, unit: entry.unit }),
    );
  };
  return (
    <fieldset class="gauge-part">
      <legend>{legend}</legend>
      <div class="gauge-row">
        {fields.map((field, i) => (
          <div class="form-field" key={field.key}>
            <label for={`${id}-${i}`}>
              {field.label === "reading" ? unit : `${field.label}, ${unit}`}
              <span class="hide"> {legend}</span>
            </label>
            <input
              id={`${id}-${i}`}
              class="number"
              inputMode={keysFor(entry)}
              autocomplete="off"
              value={typed.value[part][i] ?? ""}
              {...(field.asks === "doesNotGo" && { [FILLS_ITSELF]: true })}
              onFocus={(event) => {
                if (!byHand.current[i]) event.currentTarget.select();
              }}
              onInput={(event) => onTyped(i, event.currentTarget.value)}
            />
          </div>
        ))}
      </div>
    </fieldset>
  );
}

export function gaugeRead({ into, station, entry, other }: StopPage, typed: TypedGauge): GaugeRead {
  const text = (part: Part) => entryText(entry, typed[part]).replace(/^:+$/, "");
  return {
    ...{ into, station, unit: entry.unit, loose: text("loose"), nipped: text("nipped"), final: text("final") },
    other: other && { ...other, text: text("other") },
  };
}
