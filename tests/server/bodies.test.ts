import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sampleEvent, sampleMachine } from "../logbook/sample-events.ts";
import { ask, machineId, sendRaw, type TestServer } from "./asking.ts";
import { type Attacked, attackedServer } from "./attacked.ts";

let attacked: Attacked;
let server: TestServer;
let machine: string;
beforeAll(async () => {
  attacked = await attackedServer();
  ({ server, machine } = attacked);
});
afterAll(() => attacked.close());

describe("path traversal", () => {
  const secret = readFileSync(new URL("../../package.json", import.meta.url), "utf8").slice(0, 40);

  it.each([
    "/../package.json",
    "/../../../../etc/passwd",
    "/%2e%2e/%2e%2e/%2e%2e/etc/passwd",
    "/..%2f..%2f..%2fetc%2fpasswd",
    "/..%5c..%5cetc%5cpasswd",
    "/%252e%252e%252fetc%252fpasswd",
    "/assets/../../kilter.db",
    "/assets/..%2f..%2fkilter.db",
    "/assets/%c0%ae%c0%ae/kilter.db",
    "/....//....//etc/passwd",
    "//etc/passwd",
    "/assets/page.js%00.html",
    "/\\..\\..\\etc\\passwd",
    "/devices.json",
    "/kilter.db",
    "/server.log",
    "/api/machines/..%2f..%2fkilter.db/export",
    "/api/machines/../../kilter.db",
    "/api/machines/MACHINE/photographs/..%2f..%2fkilter.db",
    "/%",
    "/%zz",
    "/api/machines/%ff/events",
  ])("by %s reaches nothing", async (path) => {
    const raw = await sendRaw(
      server.port,
      `GET ${path.replace("MACHINE", machine)} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`,
    );
    expect(raw).toMatch(/^HTTP\/1\.1 (?:200|400|404)/);
    expect(raw).not.toContain("root:");
    expect(raw).not.toContain("SQLite format");
    expect(raw).not.toContain(secret);
    // What is answered at all is the page, which every address of its own shows.
    if (raw.startsWith("HTTP/1.1 200")) expect(raw).toContain("<title>Kilter</title>");
  });
});

describe("bodies", () => {
  const path = () => `/api/machines/${machine}/events`;

  it("that are too large are refused by what they say and by what they are", async () => {
    const large = JSON.stringify({ events: [{ text: "x".repeat(1_000_001) }] });
    expect(
      (await ask(server.port, path(), { body: large, headers: { "content-type": "application/json" } })).code,
    ).toBe("body-too-large");
    const head = `POST ${path()} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nOrigin: http://127.0.0.1:${server.port}\r\nContent-Type: application/json\r\n`;
    expect(await sendRaw(server.port, `${head}Content-Length: 99999999999\r\n\r\n{`)).toMatch(/^HTTP\/1\.1 413/);
    const chunk = `${(65_536).toString(16)}\r\n${"x".repeat(65_536)}\r\n`;
    expect(await sendRaw(server.port, `${head}Transfer-Encoding: chunked\r\n\r\n${chunk.repeat(20)}`)).toMatch(
      /^HTTP\/1\.1 413/,
    );
    const picture = `/api/machines/${machine}/photographs/${"0".repeat(64)}`;
    const sent = { method: "PUT", body: Buffer.alloc(8_000_001), headers: { "content-type": "image/png" } };
    expect((await ask(server.port, picture, sent)).code).toBe("body-too-large");
    expect(attacked.logTells("body-too-large")).toBe(true);
    await attacked.expectUntouched();
  });

  it.each([
    ["", "body-not-json"],
    ["{", "body-not-json"],
    ["null", "body-unfit"],
    ["[]", "body-unfit"],
    ['"events"', "body-unfit"],
    ["{}", "body-unfit"],
    ['{"events":{}}', "body-unfit"],
    ['{"events":[],"more":1}', "body-unfit"],
    ['{"events":[],"events":[]}', "body-name-twice"],
    ['{"events":[{"__proto__":{"kind":"homed"}}]}', "body-name-twice"],
    ['{"events":[{"\\u005f_proto__":{"kind":"homed"}}]}', "body-name-twice"],
    [`{"events":${"[".repeat(20)}${"]".repeat(20)}}`, "body-too-deep"],
    [`{"events":${"[".repeat(400_000)}`, "body-too-deep"],
    [`{"events":[${"0,".repeat(300_000)}0]}`, "body-too-deep"],
    ['{"events":[null]}', "events-refused"],
    ['{"events":[1e999]}', "events-refused"],
    ['{"events":[{"v":1,"kind":"constructor"}]}', "events-refused"],
    ['{"events":[{"v":99}]}', "events-refused"],
  ])("like %.60s are refused", async (body, code) => {
    const answer = await ask(server.port, path(), {
      body,
      method: "POST",
      headers: { "content-type": "application/json" },
    });
    expect(answer.code).toBe(code);
    expect(answer.json<{ error: { words: string } }>().error.words).toMatch(/\.$/);
    await attacked.expectUntouched();
  });

  it("that are no text in UTF-8 are refused", async () => {
    const body = Buffer.from([0x7b, 0x22, 0xff, 0xfe, 0x22, 0x7d]);
    expect((await ask(server.port, path(), { body, headers: { "content-type": "application/json" } })).code).toBe(
      "body-not-text",
    );
  });

  it("of any bytes, and of sound requests with a few bytes changed, are answered in order and add nothing unsound", async () => {
    const sound = JSON.stringify({
      events: [
        sampleEvent(600, {
          kind: "reading-taken",
          run: "gap-1",
          station: "rear left",
          unit: "mm",
          goes: 0.3,
          doesNotGo: 0.35,
        }),
      ],
    });
    const changed = fc
      .array(fc.tuple(fc.nat(sound.length - 1), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 6 })
      .map((changes) => {
        const bytes = Buffer.from(sound);
        for (const [at, byte] of changes) bytes[at] = byte;
        return new Uint8Array(bytes);
      });
    const cut = fc.nat(sound.length).map((end) => new Uint8Array(Buffer.from(sound.slice(0, end))));
    const bytes = fc.uint8Array({ maxLength: 300 });
    const json = fc.json({ maxDepth: 6 }).map((text) => new Uint8Array(Buffer.from(`{"events":[${text}]}`)));
    await fc.assert(
      fc.asyncProperty(fc.oneof(changed, cut, bytes, json), async (body) => {
        const answer = await ask(server.port, path(), {
          body,
          method: "POST",
          headers: { "content-type": "application/json" },
        });
        expect([200, 400, 422]).toContain(answer.status);
        expect(() => answer.json()).not.toThrow();
      }),
      { seed: 4170, numRuns: 400 },
    );
    await attacked.lookAgain();
    const check = await ask(server.port, `/api/machines/import?machine=${machine}`, {
      body: (await ask(server.port, `/api/machines/${machine}/export`)).text,
      headers: { "content-type": "text/plain" },
    });
    expect(check.json()).toMatchObject({ added: 0, diagnostics: [] });
    expect(server.log().filter(({ level }) => level === "error")).toEqual([]);
  });

  it("that never come leave nothing hanging, and requests that are none are answered", async () => {
    const { port } = server;
    expect(await sendRaw(port, "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03")).toMatch(/^(?:HTTP\/1\.1 400|$)/);
    expect(await sendRaw(port, "GET / HTTP/9.9\r\n\r\n")).toMatch(/^HTTP\/1\.1 [45]/);
    expect(await sendRaw(port, `GET /${"a".repeat(20_000)} HTTP/1.1\r\nHost: x\r\n\r\n`)).toMatch(/^HTTP\/1\.1 4/);
    expect(await sendRaw(port, `CONNECT evil.example:443 HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`, 300)).toBe("");
    const smuggled = `POST /api/health HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /api/machines HTTP/1.1\r\n\r\n`;
    expect(await sendRaw(port, smuggled)).toMatch(/^HTTP\/1\.1 400/);
    expect((await ask(port, "/api/health")).status).toBe(200);
  });
});

describe("script in what people type", () => {
  const script = `<script>alert(1)</script>"><img src=x onerror=alert(1)>{{constructor}}\u2028'--; DROP TABLE events;`;

  it("comes back as it was typed, in every field that takes text, and never as a page", async () => {
    const id = machineId();
    const run = {
      kind: "run-begun",
      run: "gap-1",
      check: "gap-under-beam",
      instrument: "leaves",
      conditions: { note: script },
    };
    const bodies = [
      {
        kind: "machine-described",
        machine: { ...sampleMachine, name: script.slice(0, 100).replaceAll("\u2028", " ") },
      },
      {
        kind: "instrument-added",
        instrument: { id: "leaves", kind: "feeler-leaves", name: script.slice(0, 100), serial: script.slice(0, 80) },
      },
      { kind: "object-added", object: { id: "oak", kind: "block", name: script.slice(0, 100) } },
      run,
      { kind: "machine-set-aside", because: script },
      { kind: "knocked", note: script },
      { kind: "note-added", text: script },
    ];
    const events = bodies.map((body, n) => ({ ...sampleEvent(n + 900, body), by: script.slice(0, 60) }));
    const made = await ask(server.port, "/api/machines", { json: { id, events } });
    expect([made.status, made.text]).toEqual([201, expect.anything()]);
    const back = await ask(server.port, `/api/machines/${id}/events`);
    expect(back.json<{ events: { event: object }[] }>().events.map(({ event }) => event)).toEqual(events);
    const all = [
      back,
      await ask(server.port, `/api/machines/${id}/export`),
      await ask(server.port, `/api/machines/${id}/events`, { json: { events: [{ ...events[6], kind: script }] } }),
      await ask(server.port, `/api/${encodeURIComponent(script)}`),
      await ask(server.port, `/api/machines/${encodeURIComponent(script)}/events`),
    ];
    for (const { headers } of all) {
      expect(headers["content-type"]).toMatch(/^application\/(?:json|x-ndjson)/);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["content-security-policy"]).toMatch(/^default-src 'none';.*sandbox$/);
    }
    expect(all[1]!.headers["content-disposition"]).toMatch(/^attachment; filename="[A-Za-z0-9-]+\.jsonl"$/);
    const name = script.slice(0, 100).replaceAll("\u2028", " ");
    expect((await ask(server.port, `/api/machines/${id}`, { method: "DELETE", json: { name } })).status).toBe(204);
  });
});
