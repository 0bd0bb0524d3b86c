import type { Check, Setup, Station } from "../checks/check.ts";

const PLACE = /^(?:x=(-?\d+(?:\.\d+)?))?\s*(?:y=(-?\d+(?:\.\d+)?))?\s*(?:z=(-?\d+(?:\.\d+)?))?$/;

/**
 * The station that a key of the logbook names: one of the check's own, or a place of the user's own written as
 * "x=120 y=45 z=10" in the machine's coordinates, mm (what is left out is taken from the middle of the travel).
 * Null when it is neither.
 */
export function stationFromKey(check: Check, setup: Setup, key: string): Station | null {
  const own = check.stations(setup).find((station) => station.key === key);
  if (own) return own;
  const match = PLACE.exec(key.trim());
  if (!match || key.trim() === "" || check.kind !== "geometric" || !check.stationAt) return null;
  const { Lx, Ly, Lz } = setup.machine.dimensions;
  const middle = [Lx / 2, Ly / 2, Math.min(20, Lz)];
  const place = [1, 2, 3].map((group, i) => (match[group] === undefined ? middle[i] : Number(match[group])));
  const station = check.stationAt(setup, [place[0], place[1], place[2]]);
  return station && { ...station, key };
}
