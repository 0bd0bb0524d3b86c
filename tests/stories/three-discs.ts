// First-order diameters of a disc at the angle f, path radius r, cutter 6: skew γ (E(C0Y), rad) gives −r·γ·sin 2f,
// scale a·cos²f + b·sin²f times 2r, and play takes from or adds to each end by the side on which the axis arrived.
export const gamma = -2e-3;
export const scale = { x: 1e-3, y: -1e-3 };
export const play = { x: 0.16, y: 0.06 };
const angles = [15, 45, 75, 105, 135, 165];

export function diameters(r: number, direction: 1 | -1): string[] {
  return angles.map((degrees) => {
    const f = (degrees * Math.PI) / 180;
    const c = Math.cos(f);
    const s = Math.sin(f);
    const skew = -2 * r * gamma * c * s;
    const scaled = 2 * r * (scale.x * c * c + scale.y * s * s);
    // At f the path goes towards (−sin f, cos f) counter-clockwise: x arrives going down, y going up for cos f > 0.
    const arrivedX = Math.sign(-direction * s);
    const arrivedY = Math.sign(direction * c);
    const lost = -arrivedX * play.x * c - arrivedY * play.y * s;
    return (2 * r - 6 + skew + scaled + lost).toFixed(2);
  });
}
