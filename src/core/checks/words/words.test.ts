import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cautionInHand, sentenceForCaution } from "../cautions.ts";
import { cautionsByStage } from "../cautions-by-stage.ts";
import type { CheckWords } from "../check-words.ts";
import { standingWords } from "../standing.ts";
import { symptoms } from "../symptoms.ts";
import { tellingApart } from "../telling-apart.ts";

const geometricIds =
  "frame-diagonals rail-spacing rail-wind stop-gaps grid-diagonals line-along-y line-along-x beam-to-line gap-under-beam " +
  "beam-upright upright-gap upright-sweep square-sweep tram-sweep level-ride bed-touch edge-traverse travel turnaround " +
  "position-runs home-repeat hole-rectangle hole-field ring-diameters groove-widths pass-ridges two-level-marks slot-width " +
  "runout square-flip";
const fitToMeasureIds =
  "feet-rock grub-screws belt-note wheel-preload push-and-release side-push there-and-back gross-scale";
const otherConditionIds = "drag-force spring-pass same-again-slower hose-lift shank-line mount-line work-flat";
const expectedIds = `${geometricIds} ${fitToMeasureIds} ${otherConditionIds}`.split(" ").sort();

const inspections = new Set(["feet-rock", "grub-screws", "wheel-preload", "shank-line", "mount-line", "work-flat"]);

const folder = new URL(".", import.meta.url);
const ids = readdirSync(folder)
  .filter((name) => name.endsWith(".ts") && !name.endsWith(".test.ts"))
  .map((name) => name.slice(0, -3))
  .sort();
const entries: readonly (readonly [string, CheckWords])[] = await Promise.all(
  ids.map(async (id) => {
    const module = (await import(new URL(`${id}.ts`, folder).href)) as { words: CheckWords };
    return [id, module.words] as const;
  }),
);

const proseOf = (words: CheckWords): readonly string[] => [
  words.title,
  words.settles,
  ...words.tools,
  ...words.steps,
  words.sign,
  ...words.goesWrong,
  words.typical,
  ...words.cautions.map(sentenceForCaution),
];

const forbidden: readonly (readonly [string, RegExp])[] = [
  ["a plea", /\bplease\b/i],
  ["praise for having worked", /\bsuccess/i],
  ["the word that means both a slip and a deviation", /\berrors?\b/i],
  ["a bare approval", /\bOK\b|\bokay\b/],
  ["an exclamation mark", /!/],
  ["an ASCII minus before a digit", /(^|[^\p{L}\p{N}])-\d/u],
  ["a range with an ASCII hyphen", /(?<!ISO \d+)(?<=\d)-\d/],
  ["a straight double quotation mark", /"/],
  ["two spaces in a row", / {2}/],
];

function expectProse(prose: string): void {
  for (const [what, pattern] of forbidden) expect(pattern.test(prose), `${what} in “${prose}”`).toBe(false);
  expect(prose, "no blank at either end").toBe(prose.trim());
}

it("has words for every check of the catalogue and for nothing else", () => {
  expect(ids).toEqual(expectedIds);
});

describe.each(entries)("the words of %s", (id, words) => {
  it("fill every field", () => {
    for (const prose of proseOf(words)) expect(prose).not.toBe("");
    expect(words.tools.length).toBeGreaterThan(0);
    expect(words.goesWrong.length).toBeGreaterThan(1);
    expect(words.minutes).toBeGreaterThan(0);
    expect(words.minutes).toBeLessThanOrEqual(45);
  });

  it("give enough steps to do it from them alone", () => {
    expect(words.steps.length).toBeGreaterThanOrEqual(inspections.has(id) ? 2 : 4);
  });

  it("use only words that are allowed", () => {
    for (const prose of proseOf(words)) expectProse(prose);
  });

  it("close a sentence with a full stop and a heading without one", () => {
    expect(words.title).not.toMatch(/[.:;]$/);
    for (const tool of words.tools) expect(tool).not.toMatch(/[.:;]$/);
    for (const sentence of [words.settles, ...words.steps, words.sign, ...words.goesWrong, words.typical])
      expect(sentence).toMatch(/\.$/);
    for (const caution of words.cautions) expect(sentenceForCaution(caution)).toMatch(/\.$/);
  });

  it("have a caution short enough to stand beside the field at every station", () => {
    expect(cautionInHand(words.cautions)).toMatch(/^[A-Z].{10,48}\.$/);
  });

  it("carry the caution that their stage asks for", () => {
    expect(words.cautions.length).toBeGreaterThan(0);
    if (words.stage === "powered") expect(words.cautions).toContain("under power");
    if (words.stage === "cutting" && !inspections.has(id)) expect(words.cautions).toContain("cutting");
  });
});

it("ends every geometric run by reading or cutting something again", () => {
  const again = /\bonce more\b|\bagain\b|\ba second time\b|\bone more\b|\bcompare\b|\bfive times\b|\bcomes back\b/;
  for (const [id, words] of entries)
    if (geometricIds.split(" ").includes(id))
      expect(
        words.steps.slice(2).some((step) => again.test(step)),
        id,
      ).toBe(true);
});

it("says nothing twice among the rules, the symptoms, the standing words and the cautions", () => {
  const prose = [
    ...tellingApart.flatMap((rule) => [rule.shows, rule.because]),
    ...symptoms.flatMap((symptom) => [symptom.looks, symptom.separatedBy.sentence]),
    ...standingWords.flatMap((standing) => standing.sentences),
    ...cautionsByStage.flatMap((list) => list.sentences),
  ];
  for (const sentence of prose) {
    expectProse(sentence);
    expect(sentence).toMatch(/\.$/);
  }
  expect(new Set(prose).size).toBe(prose.length);
});

it("gives every symptom causes, and only checks that exist to tell them apart", () => {
  expect(new Set(symptoms.map((symptom) => symptom.id)).size).toBe(symptoms.length);
  for (const symptom of symptoms) {
    expect(symptom.causes.length, symptom.id).toBeGreaterThan(0);
    expect(symptom.separatedBy.checks.length, symptom.id).toBeGreaterThan(0);
    for (const check of symptom.separatedBy.checks) expect(ids, symptom.id).toContain(check);
    for (const cause of symptom.causes) {
      expectProse(cause);
      expect(cause).not.toMatch(/\.$/);
    }
  }
});

it("cautions for each stage once, with more than one sentence", () => {
  expect(new Set(cautionsByStage.map((list) => list.stage)).size).toBe(cautionsByStage.length);
  for (const list of cautionsByStage) expect(list.sentences.length, list.stage).toBeGreaterThan(1);
});
