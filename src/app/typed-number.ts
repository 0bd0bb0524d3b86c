const NUMBER = /^[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;

/** A number with a point or a comma, with a plain or a true minus sign; null where the text is none. */
export function numberOrNull(text: string): number | null {
  const bare = text.trim();
  return NUMBER.test(bare) ? Number(bare.replace(",", ".").replace("−", "-")) : null;
}
