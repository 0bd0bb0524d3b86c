import { effect, signal } from "@preact/signals";

/** What the user of this device likes; it stays on this device. */
export interface Preferences {
  readonly theme: "device" | "light" | "dark";
  readonly projection: "third" | "first";
  /** In which unit readings are typed: as the tool is marked, or always in one. */
  readonly unit: "tool" | "mm" | "in" | "thou";
  /** What sheets are printed on. */
  readonly paper: "a4" | "letter";
  /** Goes with every event made here. */
  readonly by: string;
}

const usual: Preferences = { theme: "device", projection: "third", unit: "tool", paper: "a4", by: "" };
const key = "kilter.preferences";

export const preferences = signal<Preferences>({ ...usual, ...stored() });

export function prefer(some: Partial<Preferences>): void {
  preferences.value = { ...preferences.value, ...some };
}

/** The unit to offer; null where the tool's own mark decides. */
export function preferredUnit(): string | null {
  const { unit } = preferences.value;
  return unit === "tool" ? null : unit;
}

effect(() => {
  const { theme } = preferences.value;
  if (theme === "device") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(key, JSON.stringify(preferences.value));
  } catch {
    // Storage may be shut off; then they hold until the page is closed.
  }
});

function stored(): Partial<Preferences> {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "{}") as Partial<Preferences>;
  } catch {
    return {};
  }
}
