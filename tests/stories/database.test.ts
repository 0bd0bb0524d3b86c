import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { photographFromBytes } from "../../src/app/photograph.ts";
import { lineFromEvent } from "../../src/logbook/write.ts";
import { databaseIn } from "../../src/store/data-folder.ts";
import { sha256Of } from "../../src/store/integrity.ts";
import { openStore } from "../../src/store/open-store.ts";
import { sampleEvent } from "../logbook/sample-events.ts";
import { exifSegment, jfif, smallJpeg } from "../store/small-pictures.ts";
import { valueIn } from "../store/temporary-store.ts";
import { createMachine, done, json, kilter, layouts, newLogbook } from "./kilter.ts";

const demonstration = fileURLToPath(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url));

interface Imported {
  readonly machine: string;
  readonly isNew: boolean;
  readonly added: number;
  readonly passedOver: number;
  readonly photographs: number;
}

function newFolder(): string {
  return mkdtempSync(join(tmpdir(), "kilter-database-"));
}

test("a logbook goes into the database and comes out again, byte by byte, and a second time adds nothing", () => {
  const data = newFolder();
  const [first] = json<Imported[]>(["database", "import", demonstration, "--data", data]);
  expect(first).toMatchObject({ isNew: true, added: 198, passedOver: 0 });
  expect(done(["database", "import", demonstration, "--data", data])).toMatch(
    /0\s+events\s+added\.\s+198\s+events\s+were\s+there/,
  );
  const name = "The shared workshop's router";
  const text = readFileSync(demonstration, "utf8");
  expect(done(["database", "export", name, "--data", data])).toBe(text);
  const file = join(data, "out.jsonl");
  done(["database", "export", first!.machine.slice(0, 6), "--data", data, "--to", file]);
  expect(readFileSync(file, "utf8")).toBe(text);
  expect(kilter(["database", "export", name, "--data", data, "--to", file])).toMatchObject({ status: 2 });
  const list = json<{ machines: object[] }>(["database", "list", "--data", data]);
  expect(list.machines).toMatchObject([{ name, id: first!.machine, events: 198, demonstration: false }]);
  expect(done(["database", "list", "--data", data])).toContain("The shared workshop's");
});

test("photographs go along in a folder beside the logbook, without what the camera had noted in them", () => {
  const [data, other, folder] = [newFolder(), newFolder(), newFolder()];
  const logbook = newLogbook();
  createMachine(logbook, layouts[0]);
  const taken = valueIn(photographFromBytes(smallJpeg([...jfif, ...exifSegment(6)]), sha256Of));
  const event = sampleEvent(3, {
    kind: "photograph-added",
    name: "bed.jpg",
    sha256: taken.sha256,
    mediaType: taken.mediaType,
    bytes: taken.bytes.length,
  });
  writeFileSync(logbook, `${readFileSync(logbook, "utf8")}${lineFromEvent(event)}\n`);
  const [{ machine }] = json<[Imported]>(["database", "import", logbook, "--data", data]);
  const store = valueIn(openStore(databaseIn(data)));
  store.addPhotograph(machine, taken);
  store.close();

  const out = join(folder, "router.jsonl");
  expect(done(["database", "export", machine, "--data", data, "--to", out])).toContain("1 photograph in");
  expect(readdirSync(join(folder, "router-photographs"))).toEqual([`${taken.sha256}.jpg`]);
  const alone = kilter(["database", "export", machine, "--data", data]);
  expect([alone.status, alone.out]).toEqual([0, readFileSync(out, "utf8")]);
  expect(alone.err).toContain("photographs-left-out");

  expect(json<Imported[]>(["database", "import", out, "--data", other])).toMatchObject([
    { isNew: true, photographs: 1 },
  ]);
  expect(json<Imported[]>(["database", "import", out, "--data", other])).toMatchObject([{ added: 0, photographs: 0 }]);
  writeFileSync(join(folder, "router-photographs", `${taken.sha256}.jpg`), smallJpeg());
  const third = kilter(["database", "import", out, "--data", newFolder()]);
  expect([third.status, third.err.includes("photograph-differs")]).toEqual([0, true]);
});

test("while a server has the database, one may look and back up beside it, and not write", () => {
  const data = newFolder();
  done(["database", "import", demonstration, "--data", data]);
  const server = valueIn(openStore(databaseIn(data)));
  const refused = kilter(["database", "import", demonstration, "--data", data]);
  expect(refused.status).toBe(2);
  expect(refused.err).toContain(`process ${process.pid}`);
  expect(refused.err).toContain("database-in-use");
  const backup = done(["database", "backup", "--data", data]);
  expect(backup.replace(/\s+/g, " ")).toContain("To go back to it: stop the server, move");
  const { backups } = json<{ backups: { path: string }[] }>(["database", "list", "--data", data]);
  expect(backups).toHaveLength(1);
  expect(done(["database", "check", "--data", data])).toMatch(/is sound/);
  expect(done(["database", "export", "The shared workshop's router", "--data", data])).toHaveLength(
    readFileSync(demonstration, "utf8").length,
  );
  server.close();
});

test("a database that has been damaged is told, with what to do, by status 2", () => {
  const data = newFolder();
  done(["database", "import", demonstration, "--data", data]);
  done(["database", "backup", "--data", data]);
  const path = databaseIn(data);
  writeFileSync(path, readFileSync(path).fill(0x55, 2 * 4096, 9 * 4096));
  for (const verb of [["check"], ["list"], ["import", demonstration]]) {
    const answer = kilter(["database", ...verb, "--data", data]);
    expect(answer.status).toBe(2);
    expect(answer.err).toContain("database-damaged");
    expect(answer.err.replace(/\s+/g, "")).toContain(join(data, "backups", "kilter-").replace(/\s+/g, ""));
  }
});

test.each([
  [["database", "import", "no-such-file.jsonl"], "file-unreadable"],
  [["database", "export", "nobody"], "machine-not-there"],
  [["database", "forget"], "command-misused"],
  [["database", "export"], "command-misused"],
])("what cannot be is told in words: %j", (words, code) => {
  const data = newFolder();
  done(["database", "import", demonstration, "--data", data]);
  const answer = kilter([...words, ...(code === "command-misused" ? [] : ["--data", data])]);
  expect([answer.status, answer.out]).toEqual([2, ""]);
  expect(answer.err).toContain(`[${code}]`);
  expect(answer.err).toContain("to do:");
});

test("every verb has help with an example and says where the database is kept", () => {
  for (const verb of ["list", "import", "export", "backup", "check"]) {
    const help = done(["database", verb, "--help"]);
    expect(help).toContain(`Example: kilter database ${verb}`);
    expect(help).toMatch(/The database is kept in .*kilter/);
    expect(help).toContain("KILTER_DATA");
  }
});
