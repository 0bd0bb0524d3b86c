export const noChromium: string;
export function findChromium(): string | null;
export function getChromium(): string | null;
