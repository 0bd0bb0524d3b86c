import type { InstrumentFamily } from "../instruments/instrument.ts";
import { areOneNote } from "../machine/drives.ts";
import { nameGrossScale } from "../machine/gross-scale.ts";
import type { Machine } from "../machine/machine.ts";
import { axisFromOption, axisOption } from "./axis-option.ts";
import { bothLayouts, type ConditionCheck, optionOf, type ReadingQuantity, type Setup, type Station } from "./check.ts";
import type { CheckWords } from "./check-words.ts";
import { words as beltNoteWords } from "./words/belt-note.ts";
import { words as dragForceWords } from "./words/drag-force.ts";
import { words as feetRockWords } from "./words/feet-rock.ts";
import { words as grossScaleWords } from "./words/gross-scale.ts";
import { words as grubScrewsWords } from "./words/grub-screws.ts";
import { words as hoseLiftWords } from "./words/hose-lift.ts";
import { words as mountLineWords } from "./words/mount-line.ts";
import { words as pushAndReleaseWords } from "./words/push-and-release.ts";
import { words as sameAgainSlowerWords } from "./words/same-again-slower.ts";
import { words as shankLineWords } from "./words/shank-line.ts";
import { words as sidePushWords } from "./words/side-push.ts";
import { words as springPassWords } from "./words/spring-pass.ts";
import { words as thereAndBackWords } from "./words/there-and-back.ts";
import { words as wheelPreloadWords } from "./words/wheel-preload.ts";
import { words as workFlatWords } from "./words/work-flat.ts";

/** What the rough scale is tried with, mm. */
const COMMANDED = 100;

/**
 * Looks, pushes and counts. They estimate nothing about the geometry: they decide whether it is worth reading yet, and
 * how much of a cutting reading is not geometry. All limits here: common practice, no source.
 */
export const conditionChecks: readonly ConditionCheck[] = [
  condition("feet-rock", feetRockWords, "length", ["feeler"], {
    fitToMeasure: true,
    // A sheet of paper is 0.10 mm: a foot that takes it stands free.
    passes: (leaf) => leaf < 0.1,
    stations: () => places("front left foot", "front right foot", "rear left foot", "rear right foot"),
  }),
  inspection("grub-screws", grubScrewsWords, {
    fitToMeasure: true,
    stations: () => answered(["X", "Y", "Z"], "every pulley and coupling holds its shaft"),
  }),
  condition("belt-note", beltNoteWords, "frequency", ["tuner"], {
    fitToMeasure: true,
    passes: (note) => note > 0,
    passesTogether: ([left, right]) => right === undefined || areOneNote(left, right),
    appliesTo: hasBeltsOnY,
    stations: ({ machine }) =>
      machine.dimensions.details.motorsOnY === 2 ? places("left belt", "right belt") : places("Y belt"),
  }),
  inspection("wheel-preload", wheelPreloadWords, {
    fitToMeasure: true,
    stations: () => answered(["left side", "right side", "carriage", "slide"], "every wheel or block carries and runs"),
  }),
  // Who has no dial feels with leaves the gap that opens at a block.
  condition("push-and-release", pushAndReleaseWords, "length", ["dial", "test indicator", "feeler"], {
    fitToMeasure: true,
    // Half a tenth that stays on release is twice what a good machine shows. How far it gives under load is only noted.
    passes: (value, station) => !station.key.endsWith("stays") || value <= 0.06,
    stations: () =>
      (["X", "Y", "Z"] as const).flatMap((axis) => [
        place(`${axis}, gives under 20 N`, `${axis}: how far the nose gives under 20 N, the larger of both ways`),
        place(`${axis}, stays`, `${axis}: what of it stays after letting go`),
      ]),
  }),
  condition("side-push", sidePushWords, "length", ["dial", "test indicator", "feeler"], {
    fitToMeasure: true,
    appliesTo: (machine) => machine.layout.workBranch.length === 0,
    passes: (value, station) => !station.key.endsWith("stays") || value <= 0.15,
    stations: () => [
      place("far end, gives under 20 N", "how far one end moves while the other is pulled with 20 N"),
      place("far end, stays", "what of it stays after letting go"),
    ],
  }),
  condition("there-and-back", thereAndBackWords, "length", ["dial", "test indicator", "rule"], {
    fitToMeasure: true,
    bothWays: true,
    options: [axisOption],
    // Z carries no way along the bed; an axis that loses steps shows in X and Y.
    doneWith: [{ axis: "X" }, { axis: "Y" }],
    passes: (value) => Math.abs(value) <= 0.1,
    stations: (setup) => places(`${axisName(setup)}, after twenty trips`),
  }),
  condition("gross-scale", grossScaleWords, "length", ["rule", "tape", "calipers"], {
    fitToMeasure: true,
    bothWays: true,
    passes: (value) => Math.abs(value - COMMANDED) <= 2,
    whatFailed: (value) => nameGrossScale(COMMANDED, value).explanations[0]?.words ?? null,
    stations: () => places("X, 100 commanded", "Y, 100 commanded"),
  }),
  condition("drag-force", dragForceWords, "force", ["luggage scale"], {
    passes: null,
    stations: () => places("front", "front quarter", "middle", "rear quarter", "rear"),
  }),
  condition("spring-pass", springPassWords, "length", ["dial", "calipers"], {
    passes: null,
    stations: () => places("taken by the second pass"),
  }),
  condition("same-again-slower", sameAgainSlowerWords, "length", ["calipers", "dial"], {
    passes: null,
    bothWays: true,
    stations: () => places("at the usual feed", "at a third of it"),
  }),
  condition("hose-lift", hoseLiftWords, "length", ["dial", "test indicator", "feeler"], {
    passes: null,
    stations: () => places("change with the hose lifted"),
  }),
  inspection("shank-line", shankLineWords, {
    stations: () => [place("line on the shank", "the line still meets across shank and nut")],
  }),
  inspection("mount-line", mountLineWords, {
    stations: () => [place("line across body and mount", "every stroke across body and mount is unbroken")],
  }),
  inspection("work-flat", workFlatWords, {
    stations: () => [
      place("leaf under the work", "no leaf goes under the work"),
      place("thumb beside the tool", "no thumb moves the work"),
    ],
  }),
];

type Particulars = Partial<Omit<ConditionCheck, "id" | "kind" | "words" | "quantity" | "instruments" | "stations">> &
  Pick<ConditionCheck, "stations">;

function condition(
  id: string,
  words: CheckWords,
  quantity: ReadingQuantity,
  instruments: readonly InstrumentFamily[],
  particulars: Particulars,
): ConditionCheck {
  return {
    id,
    kind: "condition",
    words,
    layouts: bothLayouts,
    quantity,
    instruments,
    options: [],
    passes: null,
    fitToMeasure: false,
    ...particulars,
  };
}

function inspection(id: string, words: CheckWords, particulars: Particulars): ConditionCheck {
  return condition(id, words, "verdict", ["look"], particulars);
}

function places(...keys: readonly string[]): readonly Station[] {
  return keys.map((key) => place(key, key));
}

/** Places of which the same is asked: yes where it is true. */
function answered(keys: readonly string[], isTrue: string): readonly Station[] {
  return keys.map((key) => place(key, `${key}: ${isTrue}`));
}

function place(key: string, words: string): Station {
  return { key, words, at: [0, 0, 0] };
}

function axisName(setup: Setup): string {
  return axisFromOption(optionOf({ options: [axisOption] }, setup, "axis")).toUpperCase();
}

function hasBeltsOnY(machine: Machine): boolean {
  return machine.dimensions.details.drives.y.kind === "belt";
}
