import { describe, expect, it } from "vitest";
import { memoryStore, type Unsent } from "./store.ts";

const entry = (machine: string) => ({ machine, event: { id: machine } as Unsent["event"], begins: false });

describe("an outbox in memory", () => {
  it("goes on behind what was there, and gives up only what it is told to", async () => {
    const store = memoryStore([{ ...entry("a"), place: 7 }]);
    await store.put([entry("b"), entry("c")]);
    expect((await store.all()).map(({ machine, place }) => `${machine}${place}`)).toEqual(["a7", "b8", "c9"]);
    await store.remove([8]);
    expect((await store.all()).map(({ machine }) => machine)).toEqual(["a", "c"]);
    expect(store.lasting).toBe(false);
  });
});
