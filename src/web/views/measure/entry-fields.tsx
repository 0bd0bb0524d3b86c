import { effect } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { goBack } from "../../router.ts";
import type { RunPage } from "../../worker/protocol.ts";
import { type EntryField, fieldsOf } from "./entry-text.ts";
import { goToStation, type StationEntry } from "./station-entry.ts";

interface EntryFieldsProps {
  readonly page: RunPage;
  readonly entry: StationEntry;
  readonly station: string;
  readonly setText: (field: number, text: string) => void;
  readonly press: (key: string) => Promise<void>;
  readonly input: { current: HTMLInputElement | null };
  /** Keys that were typed while the last reading was being saved. */
  readonly ahead: string[];
  readonly onTouched: () => void;
}

/** The fields of one station. The first has the focus when the station opens; Enter confirms, Esc clears, Alt+← goes back. */
export function EntryFields({ page, entry, station, setText, press, input, ahead, onTouched }: EntryFieldsProps) {
  const fields = fieldsOf(page.entry);
  const id = useId();
  const at = entry.field.value;
  const focus = (field: number) => {
    input.current = document.getElementById(`${id}-${field}`) as HTMLInputElement | null;
    input.current?.focus();
  };
  useEffect(() => focus(entry.field.peek()), [entry.again.value]);
  // At once, not after the next drawing: the key after Enter belongs to the next field already.
  useEffect(
    () =>
      effect(() => {
        void entry.turn.value;
        focus(entry.field.value);
      }),
    [entry],
  );
  // What was refused stays to be seen, and gives way to whatever is typed next.
  useEffect(() => {
    if (entry.feedback.value?.tone === "refused") input.current?.select();
  }, [entry.feedback.value]);
  const unit = page.entry.units.find((one) => one.id === page.entry.unit);
  const nextUnit =
    page.entry.units[(page.entry.units.findIndex((one) => one.id === page.entry.unit) + 1) % page.entry.units.length];

  function onKeyDown(event: KeyboardEvent) {
    if (event.isComposing) return;
    if (event.altKey && event.key === "ArrowLeft") {
      event.preventDefault();
      const number = page.stations.findIndex(({ key }) => key === station);
      if (number > 0) goToStation(entry, page.stations[number - 1].key);
      else goBack();
    } else if (event.key === "Enter") {
      event.preventDefault();
      void press("Enter");
    } else if (event.key === "Escape") {
      event.preventDefault();
      setText(at, "");
    } else if (
      entry.busy.value &&
      !event.ctrlKey &&
      !event.metaKey &&
      (event.key.length === 1 || event.key === "Backspace")
    ) {
      // An instrument that types may be faster than the device's disk: its keys wait for the next station.
      event.preventDefault();
      ahead.push(event.key);
    }
  }

  const hasSign = page.entry.signed && page.entry.unit === "in";
  return (
    <div class={`entry-fields n${fields.length}${hasSign ? " with-sign" : ""}`}>
      {hasSign && (
        <button
          type="button"
          class="unit"
          aria-label="Plus or minus"
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => void press("±")}
        >
          ±
        </button>
      )}
      {fields.map((field, i) => (
        <label class={`entry-field${i === at ? " now" : ""}`} key={field.key} for={`${id}-${i}`}>
          <FieldSymbol asks={field.asks} />
          <span>{field.label}</span>
          <input
            id={`${id}-${i}`}
            inputMode="none"
            autocomplete="off"
            spellcheck={false}
            enterKeyHint={i === fields.length - 1 ? "done" : "next"}
            aria-describedby={`station-say ${id}-range`}
            value={entry.texts.value[i] ?? ""}
            onFocus={(event) => {
              entry.field.value = i;
              if (!entry.typed.value[i]) event.currentTarget.select();
            }}
            onClick={(event) => {
              onTouched();
              if (!entry.typed.value[i]) event.currentTarget.select();
            }}
            onInput={(event) => setText(i, event.currentTarget.value)}
            onKeyDown={onKeyDown}
          />
        </label>
      ))}
      <button
        type="button"
        class="unit"
        aria-label={`Unit: ${unit?.symbol ?? ""}. Change to ${nextUnit?.symbol ?? ""}.`}
        disabled={page.entry.units.length < 2}
        onPointerDown={(event) => event.preventDefault()}
        onClick={() => {
          entry.unit.value = nextUnit?.id ?? null;
          input.current?.focus();
        }}
      >
        {unit?.symbol}
      </button>
      <p class="note range" id={`${id}-range`}>
        {page.entry.instrument}
        {page.entry.range !== "" && `: ${page.entry.range}`}
      </p>
    </div>
  );
}

function FieldSymbol({ asks }: { asks: EntryField["asks"] }) {
  return asks === "value" ? null : <LeafSymbol goes={asks === "goes"} />;
}

/** What goes lies between two faces; what does not stands before them. */
export function LeafSymbol({ goes }: { goes: boolean }) {
  return (
    <svg class="dwg" viewBox="0 0 44 28" aria-hidden="true">
      <path class="wide" d={goes ? "M10 4H34M10 24H34" : "M22 7H42M22 21H42"} />
      <path class="ink" d={goes ? "M2 11H42V17H2z" : "M2 9H17V19H2z"} />
    </svg>
  );
}
