import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { workedBridge, workedGantry } from "../../tests/simulation/simulate.ts";
import type { MachineDescription } from "../core/machine/description.ts";
import { machineFromDescription, nominalState } from "../core/machine/machine.ts";
import { demandKinds } from "../core/work/catalogue.ts";
import { reduceSamples } from "../core/work/demand.ts";
import { kindOfWorkSchema } from "../logbook/schema/kind-of-work.ts";
import { demandsOfKind, kindsOfWork, usualKindOfWork } from "./kinds-of-work.ts";

const folder = fileURLToPath(new URL("../../catalog/kinds-of-work/", import.meta.url));

/** The worked machines, and the same with three fifths and one and a half times of their travel. */
function machines(drive: "belt" | "screw"): readonly MachineDescription[] {
  const drives = { x: { kind: drive }, y: { kind: drive }, z: { kind: "screw" } } as const;
  return [workedGantry, workedBridge].flatMap((machine) =>
    [0.6, 1, 1.5].map((share) => {
      const { x, y, z } = machine.travelMm;
      const { left, right } = machine.railPlanesMm;
      return {
        ...machine,
        name: `${machine.name}, ${share} as large`,
        travelMm: { x: share * x, y: share * y, z },
        railPlanesMm: { left, right: right + (share - 1) * x },
        details: { drives },
      };
    }),
  );
}

describe("the kinds of work as the program loads them", () => {
  test("hold every file of the folder, and nothing else", () => {
    const files = readdirSync(folder).map((file) => JSON.parse(readFileSync(folder + file, "utf8")));
    const byId = (entries: Iterable<{ readonly id: string }>) => [...entries].sort((a, b) => (a.id < b.id ? -1 : 1));
    expect(byId(kindsOfWork.values())).toEqual(byId(files));
    expect(usualKindOfWork.id).toBe("general");
  });

  test.each([...kindsOfWork.values()])("$id: sizes, axes and units are ones of the demands' kinds", (work) => {
    expect(kindOfWorkSchema.safeParse(work).success).toBe(true);
    for (const { kind: id, sizes = {}, axes, limit } of work.demands) {
      const kind = demandKinds.find((candidate) => candidate.id === id);
      const keys = kind?.sizes.map(({ key }) => key) ?? [];
      expect(kind?.unit, id).toBe(limit.unit);
      for (const key of Object.keys(sizes)) expect(keys, id).toContain(key);
      expect(keys.includes("axis"), id).toBe(axes !== undefined);
    }
  });

  test.each([...kindsOfWork.values()])(
    "$id: what is asked of screws is never less than what is asked of belts",
    (work) => {
      for (const { limit } of work.demands) expect(limit.screw).toBeLessThanOrEqual(limit.belt);
    },
  );
});

describe.each(["belt", "screw"] as const)(
  "the demands of a kind of work on a machine with a %s for X and Y",
  (drive) => {
    const each = [...kindsOfWork.keys()].flatMap((id) =>
      machines(drive).map((machine) => ({ id, name: machine.name, machine })),
    );

    test.each(each)(
      "$id on a $name: every one of them has room, its own id, its limit and its reason",
      ({ id, machine: description }) => {
        const machine = machineFromDescription(description);
        const demands = demandsOfKind(id, machine);
        const stated = kindsOfWork.get(id)?.demands ?? [];
        expect(demands).toHaveLength(stated.reduce((count, { axes }) => count + (axes?.length ?? 1), 0));
        expect(new Set(demands.map((demand) => demand.id)).size).toBe(demands.length);
        for (const demand of demands) {
          expect(stated.filter(({ kind }) => kind === demand.kind).map(({ limit }) => limit[drive])).toContain(
            demand.limit,
          );
          expect(demand.why.length, demand.id).toBeGreaterThan(20);
          const values = demand
            .samples({ machine, state: nominalState(machine), size: 0, skim: null })
            .map(({ value }) => value);
          expect(reduceSamples(demand, values), demand.id).toBeLessThan(1e-9);
        }
      },
    );

    test("two of one kind are told apart by their sizes, and those are cut down to the travel", () => {
      const small = machines(drive).find(({ name }) => name === "worked bridge, 0.6 as large") as MachineDescription;
      const titles = demandsOfKind("surfacing", machineFromDescription(small)).map(({ title }) => title);
      expect(titles).toContain("Flatness over 240 × 210");
      const joinery = demandsOfKind("sheet-joinery", machineFromDescription(small)).map(({ id }) => id);
      expect(joinery.filter((id) => id.startsWith("size"))).toEqual(["size 240 piece", "size 12 piece"]);
    });
  },
);

test("a machine counts as one with screws only when X and Y both have them", () => {
  const drives = { x: { kind: "screw" }, y: { kind: "belt" }, z: { kind: "screw" } } as const;
  const machine = machineFromDescription({ ...workedGantry, details: { drives } });
  expect(demandsOfKind("general", machine).find(({ kind }) => kind === "runout")?.limit).toBe(0.1);
});

test("without a choice the work is general", () => {
  const machine = machineFromDescription(workedGantry);
  const ids = (kind: string | null) => demandsOfKind(kind, machine).map(({ id }) => id);
  expect(ids(null)).toEqual(ids("general"));
  expect(ids("general")).toEqual([
    "diagonals 300×300",
    "scale x",
    "scale y",
    "play x",
    "play y",
    "depth-spread 540×450",
    "tram 200",
    "runout",
  ]);
});
