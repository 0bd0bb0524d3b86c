import { useRef } from "preact/hooks";
import { Drawing } from "../../parts/drawing.tsx";
import { Choice, NumberField, TextField } from "../../parts/fields.tsx";
import { toldInLines } from "../../parts/told.tsx";
import { typedNumber } from "../../parts/typed-number.ts";
import type { Drawn, Told } from "../../worker/protocol.ts";
import { type AxisTexts, eightNumbers, gridAsked, type MachineDraft, zeroAsked } from "./machine-draft.ts";

interface DraftProps {
  readonly draft: MachineDraft;
  readonly onChange: (draft: MachineDraft) => void;
}

interface EightProps extends DraftProps {
  readonly drawn: Drawn | null;
  readonly nameProblem?: string;
  /** Told the view that shows the number whose field has been entered. */
  readonly onView: (view: "plan" | "front") => void;
}

const heights: ReadonlySet<string> = new Set(["travelZ", "beamCentre"]);

/** Name, layout and the eight numbers. */
export function EightFields({ draft, drawn, nameProblem = "", onChange, onView }: EightProps) {
  const told = drawn?.told ?? [];
  const last = useRef("");
  if (drawn !== null && drawn.numbers !== "") last.current = drawn.numbers;
  return (
    <>
      <TextField
        label="Name"
        hint="As everybody in the workshop calls it."
        text={draft.name}
        problem={nameProblem}
        onText={(name) => onChange({ ...draft, name })}
      />
      <Choice
        label="What moves along Y?"
        value={draft.layout}
        answers={[
          ["moving-gantry", "The gantry; the bed stands still"],
          ["fixed-bridge", "The table; the bridge stands still"],
        ]}
        onChoose={(layout) => onChange({ ...draft, layout })}
      />
      <fieldset
        class="field-grid"
        onFocusIn={(event) => {
          const fields = [...event.currentTarget.querySelectorAll("input")];
          const entered = eightNumbers[fields.indexOf(event.target as HTMLInputElement)];
          if (entered) onView(heights.has(entered.key) ? "front" : "plan");
        }}
      >
        <legend>Eight numbers</legend>
        <p class="note">
          Seen from the front of the machine: left, right, front and rear keep their names wherever you stand. A tape is
          good enough. Inches may be typed as 24 in or 23 5/8 in.
        </p>
        {last.current !== "" && (
          <div class="numbers-picture">
            <Drawing svg={last.current} />
          </div>
        )}
        {eightNumbers.map(({ key, label, hint, asked, field }, i) => (
          <div class="lettered-field" key={key}>
            <b class="number-letter" aria-hidden="true">
              {String.fromCharCode(65 + i)}
            </b>
            <NumberField
              label={label}
              hint={
                key === "toolFromBeam" && isBehind(draft) ? `${hint} As it stands here the tool is behind it.` : hint
              }
              asked={asked}
              text={draft.eight[key]}
              problem={problemWith(told, field)}
              onText={(text) => onChange({ ...draft, eight: { ...draft.eight, [key]: text } })}
            />
          </div>
        ))}
      </fieldset>
    </>
  );
}

/** A tool behind the beam is rare, and a minus that was left out makes one. */
function isBehind({ eight }: MachineDraft): boolean {
  const asked = eightNumbers.find(({ key }) => key === "toolFromBeam")?.asked;
  return asked !== undefined && (typedNumber(eight.toolFromBeam, asked).value ?? 0) > 0;
}

/** What the other numbers say against this one. */
function problemWith(told: readonly Told[], field: string): string {
  const problem = told.find((one) => one.refuses && one.field?.endsWith(field));
  return problem ? toldInLines(problem)[0] : "";
}

/** How the axes are driven: it decides what is usual, and where figures of the controller can be told. */
export function DriveFields({ draft, onChange }: DraftProps) {
  const driven = axes.map((axis) => `${axis.toUpperCase()} by ${draft.drives[axis].kind}`).join(", ");
  return (
    <details>
      <summary>How it is driven: {driven}</summary>
      <fieldset>
        <legend class="hide">How it is driven</legend>
        {axes.map((axis) => (
          <div class="drive-row" key={axis}>
            <Choice
              label={`${axis.toUpperCase()} by`}
              value={draft.drives[axis].kind}
              answers={[
                ["belt", "belt"],
                ["screw", "screw"],
              ]}
              onChoose={(kind) =>
                onChange({ ...draft, drives: { ...draft.drives, [axis]: { ...draft.drives[axis], kind } } })
              }
            />
            <TextField
              label={`Steps per mm of ${axis.toUpperCase()}`}
              hint="May stay empty. With it, a scale that is out comes with its cure."
              text={draft.drives[axis].stepsPerMm}
              problem={
                /^\s*$|^\d+([.,]\d+)?$/.test(draft.drives[axis].stepsPerMm) ? "" : "Digits with a comma or a point."
              }
              onText={(stepsPerMm) =>
                onChange({ ...draft, drives: { ...draft.drives, [axis]: { ...draft.drives[axis], stepsPerMm } } })
              }
            />
          </div>
        ))}
        {draft.layout === "moving-gantry" && (
          <Choice
            label="Motors along Y"
            hint="With one at each side, every homing sets the squareness anew."
            value={draft.motorsOnY}
            answers={[
              ["1", "one"],
              ["2", "one at each side"],
            ]}
            onChoose={(motorsOnY) => onChange({ ...draft, motorsOnY })}
          />
        )}
        <NumberField
          label="Pitch of a grid printed on the bed"
          asked={gridAsked}
          optional
          text={draft.gridPitch}
          onText={(gridPitch) => onChange({ ...draft, gridPitch })}
        />
      </fieldset>
    </details>
  );
}

const axes = ["x", "y", "z"] as const;

const ways = {
  x: ["to the right", "to the left", "From the left end of the travel to your zero, to the right."],
  y: ["to the rear", "to the front", "From the front end of the travel to your zero, to the rear."],
  z: ["upwards", "downwards", "From the bed up to your zero."],
} as const;

const plain = { x: "From left to right", y: "From front to rear", z: "Up and down" } as const;

/** The user's own axes and zero; stations are told in them. */
export function AxesFields({ draft, onChange }: DraftProps) {
  const change = (axis: "x" | "y" | "z", some: Partial<AxisTexts>) =>
    onChange({ ...draft, tried: false, axes: { ...draft.axes, [axis]: { ...draft.axes[axis], ...some } } });
  return (
    <fieldset>
      <legend>Your axes and zero</legend>
      <Choice
        label="What does the machine's own display count from?"
        value={draft.ownAxes ? "own" : "plain"}
        answers={[
          ["plain", "The front left corner: X to the right, Y to the rear, Z upwards from the bed"],
          ["own", "From somewhere else, or with other letters"],
        ]}
        onChoose={(answer) => onChange({ ...draft, ownAxes: answer === "own" })}
      />
      {draft.ownAxes &&
        (["x", "y", "z"] as const).map((axis) => (
          <div class="axis-row" key={axis}>
            <TextField
              label={`${plain[axis]}, its letter`}
              most={8}
              text={draft.axes[axis].named}
              problem={draft.axes[axis].named.trim() === "" ? "A letter is missing." : ""}
              onText={(named) => change(axis, { named })}
            />
            <Choice
              label="Its numbers grow"
              value={draft.axes[axis].grows}
              answers={[
                ["plus", ways[axis][0]],
                ["minus", ways[axis][1]],
              ]}
              onChoose={(grows) => change(axis, { grows })}
            />
            <NumberField
              label="Where its zero lies"
              hint={ways[axis][2]}
              asked={zeroAsked}
              text={draft.axes[axis].zero}
              problem={typedNumber(draft.axes[axis].zero, zeroAsked).value === null ? "A number is missing." : ""}
              onText={(zero) => change(axis, { zero })}
            />
          </div>
        ))}
      {draft.ownAxes && (
        <label class="tick">
          <input
            type="checkbox"
            checked={draft.tried}
            onChange={(event) => onChange({ ...draft, tried: event.currentTarget.checked })}
          />
          <span>One short move has shown that all three go the way that stands here.</span>
        </label>
      )}
    </fieldset>
  );
}
