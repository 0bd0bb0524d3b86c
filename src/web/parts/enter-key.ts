/** Set on a field that fills itself: Enter passes over it, a touch or Tab goes to it. */
export const FILLS_ITSELF = "data-fills-itself";

/**
 * Enter means one thing in every form of readings: on to the next field that has to be typed. False where none is left;
 * then whoever asked says what takes the readings.
 */
export function toNextField(from: HTMLElement, within: Element): boolean {
  const all = [...within.querySelectorAll<HTMLInputElement>("input:not([type])")].filter(
    (field) => field === from || (!field.hasAttribute(FILLS_ITSELF) && field.closest("details:not([open])") === null),
  );
  const next = all[all.indexOf(from as HTMLInputElement) + 1];
  if (!next) return false;
  next.focus();
  next.select();
  return true;
}
