import { createHash } from "node:crypto";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { LogEvent } from "../../src/logbook/events.ts";
import { textFromEvents } from "../../src/logbook/write.ts";
import { sampleEvent, sampleMachine, soundLogbook } from "../logbook/sample-events.ts";
import { ask, machineId, openEar, pairedCookie, type TestServer, testServer, until } from "./asking.ts";

const web = mkdtempSync(join(tmpdir(), "kilter-web-"));
mkdirSync(join(web, "assets"));
writeFileSync(join(web, "index.html"), "<!doctype html><title>Kilter</title>");
writeFileSync(join(web, "assets/page-1a2b.js"), "export {};");

let server: TestServer;
beforeAll(async () => {
  server = await testServer({ web });
});
afterAll(() => server.close());

const note = (n: number, text = "wiped the rails") => sampleEvent(n, { kind: "note-added", text });

async function newMachine(events: readonly LogEvent[] = soundLogbook()): Promise<string> {
  const id = machineId();
  const { status, text } = await ask(server.port, "/api/machines", { json: { id, events } });
  if (status !== 201) throw new Error(text);
  return id;
}

/** A picture of one white square, as a program of pictures writes it. */
const picture = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsb7FUwAAAABJRU5ErkJggg==",
  "base64",
);
const sha256 = createHash("sha256").update(picture).digest("hex");

describe("health and version", () => {
  it("are told to anybody who asks under a name of ours", async () => {
    expect((await ask(server.port, "/api/health")).json()).toMatchObject({ ok: true });
    expect((await ask(server.networkPort, "/api/health")).json()).toMatchObject({ ok: true });
    expect((await ask(server.port, "/api/version")).json()).toEqual({ version: "0.0.0", schema: 1 });
  });
});

describe("machines", () => {
  it("begin with the one that came with the program", async () => {
    const [first] = (await ask(server.port, "/api/machines")).json<{ demonstration: boolean; events: number }[]>();
    expect(first).toMatchObject({ demonstration: true, events: 198, lastSequence: 198 });
  });

  it("are made with their first events, and the same sent again is the same machine", async () => {
    const json = { id: machineId(), events: soundLogbook() };
    const first = await ask(server.port, "/api/machines", { json });
    expect(first.status).toBe(201);
    const again = await ask(server.port, "/api/machines", { json });
    expect(again.json()).toEqual(first.json());
    const other = { id: json.id, events: [...soundLogbook(), note(90)] };
    expect((await ask(server.port, "/api/machines", { json: other })).code).toBe("machine-there");
  });

  it.each([
    ["an id that is too short", { id: "abc", events: soundLogbook() }, "body-unfit"],
    ["an id in capitals", { id: "A".repeat(32), events: soundLogbook() }, "body-unfit"],
    ["no events", { id: machineId() }, "body-unfit"],
    ["a field more", { id: machineId(), events: soundLogbook(), demonstration: true }, "body-unfit"],
    ["no description", { id: machineId(), events: [note(1)] }, "events-refused"],
  ])("are not made with %s", async (_, json, code) => {
    expect((await ask(server.port, "/api/machines", { json })).code).toBe(code);
  });

  it("are deleted when their name is typed, with a file left from which they come back", async () => {
    // With ids of its own: a logbook that is imported goes to the machine that has any of its events.
    const events = soundLogbook(photographAdded()).map((event, n) => ({ ...event, id: note(800 + n).id }) as LogEvent);
    const id = await newMachine(events);
    await ask(server.port, `/api/machines/${id}/photographs/${sha256}`, pictureSent());
    const wrong = await ask(server.port, `/api/machines/${id}`, { method: "DELETE", json: { name: "router" } });
    expect(wrong.code).toBe("name-differs");
    const right = { method: "DELETE", json: { name: sampleMachine.name } };
    expect((await ask(server.port, `/api/machines/${id}`, right)).status).toBe(204);
    expect((await ask(server.port, `/api/machines/${id}`, right)).code).toBe("machine-unknown");
    expect((await ask(server.port, `/api/machines/${id}/events`)).code).toBe("machine-unknown");
    const folder = join(server.data, "deleted");
    const [file] = readdirSync(folder).filter((name) => name.endsWith(`-${id.slice(0, 6)}.jsonl`));
    expect(file).toMatch(/^router-in-the-shed-\d{8}T\d{6}-/);
    const pictures = join(folder, `${file!.slice(0, -6)}-photographs`);
    expect(readFileSync(join(pictures, `${sha256}.png`)).equals(picture)).toBe(true);
    const body = readFileSync(join(folder, file!));
    const back = await ask(server.port, "/api/machines/import", { body, headers: { "content-type": "text/plain" } });
    expect(back.json()).toMatchObject({ added: 6, passedOver: 0 });
  });

  it("go by the name they were given last", async () => {
    const id = await newMachine([...soundLogbook(), sampleEvent(60, { kind: "machine-renamed", name: "Old one" })]);
    const byFirst = { method: "DELETE", json: { name: sampleMachine.name } };
    expect((await ask(server.port, `/api/machines/${id}`, byFirst)).code).toBe("name-differs");
    expect(
      (await ask(server.port, `/api/machines/${id}`, { method: "DELETE", json: { name: " Old one " } })).status,
    ).toBe(204);
  });
});

describe("events", () => {
  it("come back in the order of their arrival, from a place on", async () => {
    const id = await newMachine();
    const posted = await ask(server.port, `/api/machines/${id}/events`, { json: { events: [note(30), note(31)] } });
    const { lastSequence } = posted.json<{ lastSequence: number }>();
    expect(posted.json()).toEqual({ added: 2, passedOver: 0, lastSequence });
    const all = (await ask(server.port, `/api/machines/${id}/events`)).json<Told>();
    expect(all.events.map(({ event }) => event)).toEqual([...soundLogbook(), note(30), note(31)]);
    expect(all.lastSequence).toBe(lastSequence);
    const place = all.events.at(-2)!.sequence;
    const rest = (await ask(server.port, `/api/machines/${id}/events?after=${place}`)).json<Told>();
    expect(rest.events.map(({ event }) => event)).toEqual([note(31)]);
    expect((await ask(server.port, `/api/machines/${id}/events?after=-1`)).code).toBe("address-unfit");
  });

  it("that come twice are passed over, alone, among others and twice in one batch", async () => {
    const id = await newMachine();
    const post = async (...events: readonly LogEvent[]) =>
      (await ask(server.port, `/api/machines/${id}/events`, { json: { events } })).json();
    expect(await post(note(30))).toMatchObject({ added: 1, passedOver: 0 });
    expect(await post(note(30))).toMatchObject({ added: 0, passedOver: 1 });
    expect(await post(note(30), note(31), note(31))).toMatchObject({ added: 1, passedOver: 2 });
    expect(await post()).toMatchObject({ added: 0, passedOver: 0 });
  });

  it("that contradict what is there refuse their whole batch, with words for each reason", async () => {
    const id = await newMachine();
    const events = [note(30), sampleEvent(31, { kind: "reading-withdrawn", reading: note(99).id, because: "slip" })];
    const refused = await ask(server.port, `/api/machines/${id}/events`, { json: { events } });
    expect(refused.status).toBe(422);
    const { diagnostics } = refused.json<{ diagnostics: Record<string, unknown>[] }>();
    expect(diagnostics).toMatchObject([
      { code: "reading-unknown", severity: "refusal", where: { event: events[1]!.id } },
    ]);
    expect(Object.keys(diagnostics[0]!.words as object)).toEqual(["what", "expected", "remedy"]);
    expect((await ask(server.port, `/api/machines/${id}/events`)).json<Told>().events).toHaveLength(5);
  });

  it("that the schema refuses say which of the batch they are", async () => {
    const id = await newMachine();
    const events = [note(30), { ...note(31), text: "" }, { ...note(32), colour: "red" }];
    const { diagnostics } = (await ask(server.port, `/api/machines/${id}/events`, { json: { events } })).json<{
      diagnostics: { code: string; where: object }[];
    }>();
    expect(diagnostics.map(({ code, where }) => [code, where])).toEqual([
      ["event-field-unfit", { line: 2, field: "text" }],
      ["event-field-unknown", { line: 3, field: "colour" }],
    ]);
  });

  it("with the id of another event are refused", async () => {
    const id = await newMachine();
    await ask(server.port, `/api/machines/${id}/events`, { json: { events: [note(30)] } });
    const other = await ask(server.port, `/api/machines/${id}/events`, { json: { events: [note(30, "oiled")] } });
    expect(other.json<{ diagnostics: { code: string }[] }>().diagnostics[0]!.code).toBe("event-id-taken");
  });

  it("from many devices at one moment each get their own answer", async () => {
    const id = await newMachine();
    const bad = sampleEvent(200, { kind: "reading-withdrawn", reading: note(99).id, because: "slip" });
    const batches = Array.from({ length: 12 }, (_, n) => (n === 5 ? [bad] : [note(100 + n), note(120)]));
    const answers = await Promise.all(
      batches.map((events) => ask(server.port, `/api/machines/${id}/events`, { json: { events } })),
    );
    expect(answers.map(({ status }) => status)).toEqual(batches.map((_, n) => (n === 5 ? 422 : 200)));
    const added = answers
      .filter(({ status }) => status === 200)
      .reduce((sum, one) => sum + one.json<{ added: number }>().added, 0);
    expect(added).toBe(12);
    expect((await ask(server.port, `/api/machines/${id}/events`)).json<Told>().events).toHaveLength(17);
  });
});

interface Told {
  readonly events: readonly { readonly sequence: number; readonly event: LogEvent }[];
  readonly lastSequence: number;
}

describe("logbooks", () => {
  it("come out as they went in, and in again without adding anything", async () => {
    const id = await newMachine();
    const out = await ask(server.port, `/api/machines/${id}/export`);
    expect(out.text).toBe(textFromEvents(soundLogbook()));
    expect(out.headers["content-disposition"]).toBe('attachment; filename="router-in-the-shed.jsonl"');
    const headers = { "content-type": "application/x-ndjson" };
    const into = await ask(server.port, `/api/machines/import?machine=${id}`, { body: out.text, headers });
    expect(into.json()).toMatchObject({ id, added: 0, passedOver: 5, diagnostics: [] });
  });

  it("with a torn last line are taken in without it, which is told", async () => {
    const events = soundLogbook().map((event, n) => ({ ...event, id: note(700 + n).id }) as LogEvent);
    const body = `${textFromEvents(events)}{"v":1,"id":"01`;
    const into = await ask(server.port, "/api/machines/import", { body, headers: { "content-type": "text/plain" } });
    expect(into.status).toBe(201);
    expect(into.json()).toMatchObject({ added: 5, diagnostics: [{ code: "logbook-line-torn", severity: "warning" }] });
  });

  it("that cannot be read are refused with their line", async () => {
    const body = `${textFromEvents(soundLogbook())}{"v":1}\n`;
    const into = await ask(server.port, "/api/machines/import", { body, headers: { "content-type": "text/plain" } });
    expect(into.code).toBe("logbook-refused");
    expect(into.json<{ diagnostics: { where: object }[] }>().diagnostics[0]!.where).toMatchObject({ line: 6 });
    const unknown = `/api/machines/import?machine=${machineId()}`;
    expect(
      (await ask(server.port, unknown, { body: "", method: "POST", headers: { "content-type": "text/plain" } })).code,
    ).toBe("machine-unknown");
  });
});

function photographAdded() {
  return { kind: "photograph-added", name: "shims", sha256, mediaType: "image/png", bytes: picture.length };
}

function pictureSent(more: Record<string, string> = {}) {
  return { method: "PUT", body: picture, headers: { "content-type": "image/png", ...more } };
}

describe("photographs", () => {
  it("come back as they went in, until their bytes are removed", async () => {
    const id = await newMachine();
    const path = `/api/machines/${id}/photographs/${sha256}`;
    expect((await ask(server.port, path)).code).toBe("photograph-unknown");
    expect((await ask(server.port, path, pictureSent())).status).toBe(201);
    expect((await ask(server.port, path, pictureSent())).status).toBe(201);
    const back = await ask(server.port, path);
    expect(back.headers["content-type"]).toBe("image/png");
    expect(back.headers["content-length"]).toBe(String(picture.length));
    expect((await ask(server.port, path, { headers: { "if-none-match": back.headers.etag! } })).status).toBe(304);
    expect((await ask(server.port, path, { method: "DELETE" })).status).toBe(204);
    expect((await ask(server.port, path)).code).toBe("photograph-unknown");
    expect((await ask(server.port, path, { method: "DELETE" })).code).toBe("photograph-unknown");
  });

  it("that are none, or others, or hold more than the picture, are not kept", async () => {
    const id = await newMachine();
    const path = `/api/machines/${id}/photographs/${sha256}`;
    const put = async (body: Uint8Array, type: string, at = path) =>
      (await ask(server.port, at, { method: "PUT", body, headers: { "content-type": type } })).code;
    expect(await put(picture, "image/svg+xml")).toBe("type-unfit");
    expect(await put(picture, "image/jpeg")).toBe("picture-unfit");
    expect(await put(Buffer.from("<svg onload=alert(1)>"), "image/png")).toBe("picture-unfit");
    expect(await put(picture.subarray(0, 40), "image/png")).toBe("picture-unfit");
    expect(await put(picture, "image/png", path.replace(/.$/, "0").replace(/..$/, "00"))).toBe("picture-differs");
    expect(await put(picture, "image/png", `${path}x`)).toBe("photograph-unknown");
    const withText = Buffer.concat([picture.subarray(0, 33), textChunk(), picture.subarray(33)]);
    const own = createHash("sha256").update(withText).digest("hex");
    expect(await put(withText, "image/png", path.replace(sha256, own))).toBe("picture-differs");
  });
});

/** A chunk of text as cameras and programs leave it in a picture. */
function textChunk(): Buffer {
  const body = Buffer.from("tEXtplace\0my workshop");
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(body.length - 4, 0);
  body.copy(chunk, 4);
  let crc = 0xffffffff;
  for (const byte of body) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  chunk.writeUInt32BE((crc ^ 0xffffffff) >>> 0, body.length + 4);
  return chunk;
}

describe("live news", () => {
  it("reach a page that is open, and one that comes back hears what it missed", async () => {
    const id = await newMachine();
    const { lastSequence } = (await ask(server.port, `/api/machines/${id}/events`)).json<Told>();
    const ear = await openEar(server.port, `/api/live?after=${lastSequence}`);
    expect(ear.status).toBe(200);
    await ask(server.port, `/api/machines/${id}/events`, { json: { events: [note(30), note(31)] } });
    await until(() => ear.heard.length === 1);
    expect(ear.heard).toEqual([{ machine: id, sequence: lastSequence + 2, ids: [note(30).id, note(31).id] }]);
    ear.close();
    await ask(server.port, `/api/machines/${id}/events`, { json: { events: [note(32)] } });
    const again = await openEar(server.port, "/api/live?after=0", { "last-event-id": String(lastSequence + 2) });
    await until(() => again.heard.length === 1);
    expect(again.heard[0]!.ids).toEqual([note(32).id]);
    again.close();
  });

  it("tell of new machines and of deleted ones", async () => {
    const before = (await ask(server.port, "/api/machines")).json<{ lastSequence: number }[]>();
    const ear = await openEar(
      server.port,
      `/api/live?after=${Math.max(...before.map(({ lastSequence }) => lastSequence))}`,
    );
    const id = await newMachine();
    await until(() => ear.heard.some(({ machine }) => machine === id));
    await ask(server.port, `/api/machines/${id}`, { method: "DELETE", json: { name: sampleMachine.name } });
    await until(() => ear.text().includes("machine-deleted"));
    expect(ear.text()).toContain(`event: machine-deleted\ndata: {"machine":"${id}"}\n\n`);
    ear.close();
  });
});

describe("the demonstration", () => {
  it("stays away once it has been deleted, also after a new start", async () => {
    const first = await testServer();
    expect(first.isSeeded).toBe(true);
    const id = first.store.machines()[0]!.id;
    const name = "The shared workshop's router";
    expect((await ask(first.port, `/api/machines/${id}`, { method: "DELETE", json: { name } })).status).toBe(204);
    await first.close();
    const second = await testServer({ data: first.data });
    expect(second.isSeeded).toBe(false);
    expect((await ask(second.port, "/api/machines")).json()).toEqual([]);
    await second.close();
  });

  it("is put in once", async () => {
    const first = await testServer();
    await first.close();
    const second = await testServer({ data: first.data });
    expect(second.isSeeded).toBe(false);
    expect(second.store.machines()).toHaveLength(1);
    await second.close();
    expect(existsSync(join(first.data, "kilter.db"))).toBe(true);
  });
});

describe("devices", () => {
  it("are paired by a code, known by a cookie, listed, and removed", async () => {
    const cookie = await pairedCookie(server, "helper", "phone at the machine");
    const me = await ask(server.networkPort, "/api/me", { cookie });
    expect(me.json()).toEqual({ role: "helper", shared: true, loopback: false });
    expect((await ask(server.port, "/api/me")).json()).toEqual({ role: "owner", shared: true, loopback: true });
    const devices = (await ask(server.port, "/api/devices")).json<{ id: string; name: string }[]>();
    const own = devices.find(({ name }) => name === "phone at the machine")!;
    expect(own).toMatchObject({ role: "helper", isThis: false });
    const ear = await openEar(server.networkPort, "/api/live?after=0", { cookie });
    expect((await ask(server.port, `/api/devices/${own.id}`, { method: "DELETE" })).status).toBe(204);
    expect((await ask(server.networkPort, "/api/me", { cookie })).code).toBe("not-paired");
    await until(() => ear.hasEnded());
    expect((await ask(server.port, `/api/devices/${own.id}`, { method: "DELETE" })).code).toBe("device-unknown");
  });

  it("are given a code by an owner's page, too", async () => {
    const offer = await ask(server.port, "/api/pairing", { json: { role: "owner" } });
    const { code, addresses, link } = offer.json<{ code: string; addresses: string[]; link: string }>();
    expect(addresses).toEqual(server.sharedUnder);
    expect(link).toBe(`${server.sharedUnder[0]}/#pair=${code}`);
    const answer = await ask(server.networkPort, "/api/pair", { json: { code } });
    expect(answer.status).toBe(204);
    const [cookie] = answer.headers["set-cookie"]!;
    expect(cookie).toMatch(/^kilter-\d+=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Strict$/);
    const me = await ask(server.networkPort, "/api/me", { cookie: cookie!.split(";")[0]! });
    expect(me.json()).toMatchObject({ role: "owner" });
  });
});

describe("the page", () => {
  it("is served to anybody, for every address of its own", async () => {
    for (const port of [server.port, server.networkPort]) {
      const page = await ask(port, "/machines/abc/measure");
      expect(page.status).toBe(200);
      expect(page.text).toContain("<title>Kilter</title>");
      expect(page.headers["content-security-policy"]).toContain("script-src 'self' 'wasm-unsafe-eval'");
    }
    expect((await ask(server.port, "/assets/page-1a2b.js")).headers["cache-control"]).toContain("immutable");
    expect((await ask(server.port, "/assets/gone.js")).code).toBe("path-unknown");
    expect((await ask(server.port, "/", { method: "HEAD" })).status).toBe(200);
  });
});
