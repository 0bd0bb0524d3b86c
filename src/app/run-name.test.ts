import { expect, it } from "vitest";
import { runName } from "./run-name.ts";

it.each([
  ["01hx3fa9c1", "run 3fa9c1"],
  ["run-11", "run-11"],
  ["gap-1", "run gap-1"],
])("the run %s is named %s", (id, name) => {
  expect(runName(id)).toBe(name);
});
