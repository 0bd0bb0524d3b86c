import { expect, it } from "vitest";
import { eventKinds } from "../logbook/events.ts";
import { leastRole, mayAdd } from "./roles.ts";

it("says of every kind of event who may add it: a new kind is decided about in roles.ts", () => {
  expect(eventKinds.filter((kind) => leastRole[kind] === undefined)).toEqual([]);
  expect(Object.keys(leastRole).filter((kind) => !(eventKinds as readonly string[]).includes(kind))).toEqual([]);
});

it("lets an owner add everything, and a helper nothing that nobody has decided about", () => {
  expect(eventKinds.every((kind) => mayAdd("owner", kind))).toBe(true);
  expect(mayAdd("helper", "invented" as never)).toBe(false);
  expect(mayAdd("helper", "machine-described")).toBe(false);
  expect(mayAdd("helper", "reading-taken")).toBe(true);
});
