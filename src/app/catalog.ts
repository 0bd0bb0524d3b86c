import calipers150 from "../../catalog/instruments/calipers-150.json" with { type: "json" };
import calipers300 from "../../catalog/instruments/calipers-300.json" with { type: "json" };
import dialIndicator from "../../catalog/instruments/dial-indicator.json" with { type: "json" };
import feelerLeaves from "../../catalog/instruments/feeler-leaves.json" with { type: "json" };
import feelerLeavesInThousandths from "../../catalog/instruments/feeler-leaves-in-thousandths.json" with {
  type: "json",
};
import level01 from "../../catalog/instruments/level-0.1.json" with { type: "json" };
import level05 from "../../catalog/instruments/level-0.5.json" with { type: "json" };
import lineByEye from "../../catalog/instruments/line-by-eye.json" with { type: "json" };
import lineByEyeWithLoupe from "../../catalog/instruments/line-by-eye-with-loupe.json" with { type: "json" };
import look from "../../catalog/instruments/look.json" with { type: "json" };
import loupeWithScale from "../../catalog/instruments/loupe-with-scale.json" with { type: "json" };
import luggageScale from "../../catalog/instruments/luggage-scale.json" with { type: "json" };
import micrometer25 from "../../catalog/instruments/micrometer-25.json" with { type: "json" };
import paperUnderTheTip from "../../catalog/instruments/paper-under-the-tip.json" with { type: "json" };
import pinchRods from "../../catalog/instruments/pinch-rods.json" with { type: "json" };
import steelRule from "../../catalog/instruments/steel-rule.json" with { type: "json" };
import steelRuleWithLoupe from "../../catalog/instruments/steel-rule-with-loupe.json" with { type: "json" };
import tapeClass2 from "../../catalog/instruments/tape-class-2.json" with { type: "json" };
import testIndicator from "../../catalog/instruments/test-indicator.json" with { type: "json" };
import touchPlate from "../../catalog/instruments/touch-plate.json" with { type: "json" };
import tuner from "../../catalog/instruments/tuner.json" with { type: "json" };
import windingSticks from "../../catalog/instruments/winding-sticks.json" with { type: "json" };
import batten from "../../catalog/objects/batten.json" with { type: "json" };
import block from "../../catalog/objects/block.json" with { type: "json" };
import cutter from "../../catalog/objects/cutter.json" with { type: "json" };
import glassPlate from "../../catalog/objects/glass-plate.json" with { type: "json" };
import groundPin from "../../catalog/objects/ground-pin.json" with { type: "json" };
import knifeStraightedge from "../../catalog/objects/knife-straightedge.json" with { type: "json" };
import square from "../../catalog/objects/square.json" with { type: "json" };
import straightedge from "../../catalog/objects/straightedge.json" with { type: "json" };
import vCutter from "../../catalog/objects/v-cutter.json" with { type: "json" };
import { invariant } from "../core/base/invariant.ts";
import type { InstrumentFamily, InstrumentKind } from "../core/instruments/instrument.ts";
import type { ObjectKind } from "../core/instruments/object.ts";

/** Every kind of instrument that ships, by id, in the order of the catalogue. A new file is added to the list here. */
export const instrumentKinds: ReadonlyMap<string, InstrumentKind> = byId([
  calipers150,
  calipers300,
  dialIndicator,
  feelerLeavesInThousandths,
  feelerLeaves,
  level01,
  level05,
  lineByEyeWithLoupe,
  lineByEye,
  look,
  loupeWithScale,
  luggageScale,
  micrometer25,
  paperUnderTheTip,
  pinchRods,
  steelRuleWithLoupe,
  steelRule,
  tapeClass2,
  testIndicator,
  touchPlate,
  tuner,
  windingSticks,
] as unknown as readonly InstrumentKind[]);

/** Every kind of object that ships, by id. */
export const objectKinds: ReadonlyMap<string, ObjectKind> = byId([
  batten,
  block,
  cutter,
  glassPlate,
  groundPin,
  knifeStraightedge,
  square,
  straightedge,
  vCutter,
] as unknown as readonly ObjectKind[]);

/** The kinds of a family, the usual one first. */
export function kindsOfFamily(family: InstrumentFamily): readonly InstrumentKind[] {
  const kinds = [...instrumentKinds.values()].filter((kind) => kind.family === family);
  const isUsual = (kind: InstrumentKind) => kind.id === usualWhereSeveral[family];
  return [...kinds.filter(isUsual), ...kinds.filter((kind) => !isUsual(kind))];
}

/** The usual kind of a family: taken where somebody asks about a tool without having one of their own. */
export function kindForFamily(family: InstrumentFamily): InstrumentKind {
  const [usual] = kindsOfFamily(family);
  invariant(usual !== undefined, `the catalogue has a kind of the family ${family}`);
  return usual;
}

/** What more drawers hold, and of levels the coarser, so that nobody is promised more than theirs can do. */
const usualWhereSeveral: Readonly<Partial<Record<InstrumentFamily, string>>> = {
  calipers: "calipers-150",
  feeler: "feeler-leaves",
  level: "level-0.5",
  "line by eye": "line-by-eye-with-loupe",
  rule: "steel-rule-with-loupe",
};

function byId<T extends { readonly id: string }>(entries: readonly T[]): ReadonlyMap<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}
