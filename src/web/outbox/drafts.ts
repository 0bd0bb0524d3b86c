import { effect } from "@preact/signals";

/*
 * What has been typed and not yet taken. It is no event and goes nowhere; it only stands there again after a reload, a
 * flat battery, or a page that the device threw out of its memory.
 */

const prefix = "kilter.draft.";

/** What was being typed under that name when the page was last left; null where nothing was, or nothing can be kept. */
export function draftUnder<T>(name: string): T | null {
  try {
    return JSON.parse(localStorage.getItem(prefix + name) ?? "null") as T | null;
  } catch {
    return null;
  }
}

/**
 * Keeps up with what is being typed, until the function returned is called. Null: there is nothing to keep. Where the
 * name changes, nothing stays behind under the old one.
 */
export function keepDraft<T>(nameNow: () => string, typed: () => T | null): () => void {
  let before = nameNow();
  return effect(() => {
    const [name, now] = [nameNow(), typed()];
    try {
      if (now === null || before !== name) localStorage.removeItem(prefix + before);
      if (now !== null) localStorage.setItem(prefix + name, JSON.stringify(now));
      before = name;
    } catch {
      // Storage may be shut off or full: then what is typed lasts as long as the page.
    }
  });
}
