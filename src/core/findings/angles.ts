import { poseAt } from "../machine/joint.ts";
import { placeOnMember, type Scene } from "../machine/kinematics.ts";
import { type Dual, divide, scale, subtractVectors } from "../numerics/dual.ts";
import { bothLayouts, type SampledFinding, sizeOf } from "./finding.ts";
import { spread } from "./over-bed.ts";

type Turn = "pitch" | "roll" | "yaw";

/** By how much the carriage turns on its way along an axis: largest less smallest angle, mm/m. */
function angle(axis: "x" | "y", turn: Turn, symbol: string): SampledFinding {
  const name = axis.toUpperCase();
  return {
    id: `${turn}.${axis}`,
    form: "sampled",
    title: `${turn[0].toUpperCase()}${turn.slice(1)} along ${name}`,
    symbol,
    unit: "mm/m",
    layouts: bothLayouts,
    sided: "one",
    hasLimit: false,
    samples: (scene) => anglesAlong(scene, axis, turn),
    reduce: spread,
    meaning: (value) => `Along ${name} the carriage turns by ${sizeOf(value)} in a metre of lever.`,
  };
}

/** About X: dz/dy. About Y: −dz/dx. About Z: dy/dx, of a line of 100 mm on the carriage. */
function anglesAlong(scene: Scene, axis: "x" | "y", turn: Turn): readonly Dual[] {
  const { Lx, Ly, zs } = scene.machine.dimensions;
  const about = turn === "yaw" ? "z" : (turn === "roll") === (axis === "x") ? "x" : "y";
  return Array.from({ length: 11 }, (_, i) => {
    const x = axis === "x" ? (i / 10) * Lx : Lx / 2;
    const y = axis === "y" ? (i / 10) * Ly : Ly / 2;
    const pose = poseAt(x, y, 10);
    const foot = placeOnMember(scene, "carriage", [x, y, zs], pose);
    const end = placeOnMember(scene, "carriage", about === "x" ? [x, y + 100, zs] : [x + 100, y, zs], pose);
    const line = subtractVectors(end, foot);
    if (about === "x") return scale(1000, divide(line.z, line.y));
    return about === "y" ? scale(-1000, divide(line.z, line.x)) : scale(1000, divide(line.y, line.x));
  });
}

export const angleFindings: readonly SampledFinding[] = [
  angle("x", "roll", "E(AX)"),
  angle("x", "pitch", "E(BX)"),
  angle("x", "yaw", "E(CX)"),
  angle("y", "pitch", "E(AY)"),
  angle("y", "roll", "E(BY)"),
  angle("y", "yaw", "E(CY)"),
];
