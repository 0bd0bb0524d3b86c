import { useId } from "preact/hooks";
import { Choice } from "../../parts/fields.tsx";
import { ToldList } from "../../parts/told.tsx";
import type { Answer } from "../../worker/protocol.ts";
import type { LeavesRead } from "../../worker/protocol-tools.ts";

interface LeavesFieldProps {
  readonly words: string;
  readonly unit: string;
  readonly text: string;
  readonly largestStack: number;
  /** How the list is understood; null while nothing is listed, or while it is being read. */
  readonly read: Answer<LeavesRead> | null;
  readonly onText: (text: string) => void;
  readonly onStack: (count: string) => void;
}

/** The leaves of a set, one by one: the next leaf and the sums that can be made follow from them. */
export function LeavesField({ words, unit, text, largestStack, read, onText, onStack }: LeavesFieldProps) {
  const id = useId();
  const example = unit === "thou" ? "1.5 2 3 4 5" : "0.03 0.04 0.05 0.10 0.20";
  const counts = ["1", "2", "3", ...(largestStack > 3 ? [String(largestStack)] : [])];
  return (
    <>
      <div class="form-field">
        <label for={id}>{words}</label>
        <textarea
          id={id}
          rows={3}
          autocomplete="off"
          spellcheck={false}
          maxLength={1000}
          value={text}
          aria-describedby={`${id}-hint`}
          aria-invalid={read !== null && !read.ok}
          onInput={(event) => onText(event.currentTarget.value)}
        />
        <p class="note" id={`${id}-hint`}>
          Each leaf once, with a gap between: {example}. Taken as {unit}, unless mm, in or thou stands behind. Left
          empty, it is the usual set.
        </p>
        <p class="small" role="status">
          {read?.ok ? read.value.words : ""}
        </p>
        {read !== null && <ToldList told={read.told} />}
      </div>
      <Choice
        label="How many leaves may lie on one another"
        value={String(largestStack)}
        answers={counts.map((count) => [count, count] as const)}
        onChoose={onStack}
      />
    </>
  );
}
