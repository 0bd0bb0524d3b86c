import { signal } from "@preact/signals";

/** "here": the server answers and tells what is new. "away": not reached. "stranger": it asks for a pairing code first. */
export const connection = signal<"beginning" | "here" | "away" | "stranger">("beginning");
