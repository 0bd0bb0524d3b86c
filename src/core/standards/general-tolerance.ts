/** Class of general tolerances for lengths without one of their own. */
export type GeneralToleranceClass = "fine" | "medium";

// Upper end of each range of nominal lengths, mm; ± limit, mm. The lowest range begins at 0.5 mm.
const rows: readonly { readonly upToMm: number; readonly fine: number; readonly medium: number }[] = [
  { upToMm: 6, fine: 0.05, medium: 0.1 },
  { upToMm: 30, fine: 0.1, medium: 0.2 },
  { upToMm: 120, fine: 0.15, medium: 0.3 },
  { upToMm: 400, fine: 0.2, medium: 0.5 },
  { upToMm: 1000, fine: 0.3, medium: 0.8 },
  { upToMm: 2000, fine: 0.5, medium: 1.2 },
];

/**
 * The ± limit of a length without a tolerance of its own, in mm. Source: [ISO 2768-1 Table 1], two of its classes.
 *
 * @returns undefined outside 0.5 to 2000 mm, where a limit is to be stated at the length itself
 */
export function generalToleranceMm(toleranceClass: GeneralToleranceClass, lengthMm: number): number | undefined {
  if (!(lengthMm >= 0.5)) return undefined;
  return rows.find((row) => lengthMm <= row.upToMm)?.[toleranceClass];
}
