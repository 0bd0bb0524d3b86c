import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { Refused, refusals } from "../../src/server/refusals.ts";
import { sampleEvent, sampleMachine, soundLogbook } from "../logbook/sample-events.ts";
import {
  type Answer,
  type Asked,
  ask,
  machineId,
  openEar,
  pairedCookie,
  sendRaw,
  type TestServer,
  testServer,
  until,
} from "./asking.ts";

const web = mkdtempSync(join(tmpdir(), "kilter-web-"));
mkdirSync(join(web, "assets"));
writeFileSync(join(web, "index.html"), "<!doctype html><title>Kilter</title>");
writeFileSync(join(web, "assets/page.js"), "export {};");

let server: TestServer;
let machine: string;

beforeAll(async () => {
  server = await testServer({ web });
  machine = machineId();
  const made = await ask(server.port, "/api/machines", { json: { id: machine, events: soundLogbook() } });
  expect(made.status).toBe(201);
});

// Whatever was tried: the server answers, and holds what it held.
let before: string;
beforeEach(async () => {
  before = (await ask(server.port, `/api/machines/${machine}/export`)).text;
});
afterAll(async () => {
  expect((await ask(server.port, "/api/health")).json()).toMatchObject({ ok: true });
  await server.close();
});

async function expectUntouched(): Promise<void> {
  expect((await ask(server.port, `/api/machines/${machine}/export`)).text).toBe(before);
}

/** The log names this refusal since the test began, or counts it with one of the minute. */
function logTells(code: string): boolean {
  return server.log().some((line) => line.event === "refused" && line.code === code);
}

const note = (n: number, text = "wiped the rails") => sampleEvent(n, { kind: "note-added", text });
const adding = (n: number): Asked => ({ json: { events: [note(n)] } });

describe("a foreign Host", () => {
  it.each([
    "evil.example",
    "evil.example:4170",
    "localhost.evil.example",
    "127.0.0.1",
    "127.0.0.1:1",
    "127.0.0.2:PORT",
    "[::1]:PORT",
    "localhost:PORT.evil.example",
    "localhost:PORT@evil.example",
    "user@localhost:PORT",
    "0.0.0.0:PORT",
    "127.1:PORT",
    "2130706433:PORT",
    "localhost%2eevil.example:PORT",
  ])("of %j is refused for pages, data and live news, reading and writing", async (pattern) => {
    for (const port of [server.port, server.networkPort]) {
      const host = pattern.replace("PORT", String(port));
      for (const path of ["/", "/api/health", "/api/machines", "/api/live"]) {
        const answer = await ask(port, path, { headers: { host, origin: `http://${host}` } });
        expect([400, 421]).toContain(answer.status);
        expect(answer.text).not.toContain("Kilter</title>");
      }
      const posted = { ...adding(500), headers: { host, origin: `http://${host}` } };
      expect([400, 421]).toContain((await ask(port, `/api/machines/${machine}/events`, posted)).status);
    }
    await expectUntouched();
    expect(logTells("host-foreign")).toBe(true);
  });

  it("in the request line, or none at all, is refused", async () => {
    const { port } = server;
    const line = (target: string, host: string) => `GET ${target} HTTP/1.1\r\n${host}Connection: close\r\n\r\n`;
    expect(await sendRaw(port, line("http://evil.example/api/machines", `Host: 127.0.0.1:${port}\r\n`))).toMatch(
      /^HTTP\/1\.1 421/,
    );
    expect(await sendRaw(port, line(`http://127.0.0.1:${port}/api/machines`, "Host: evil.example\r\n"))).toMatch(
      /^HTTP\/1\.1 421/,
    );
    expect(await sendRaw(port, line("/api/machines", ""))).toMatch(/^HTTP\/1\.1 400/);
    expect(await sendRaw(port, line("/api/machines", "Host:\r\n"))).toMatch(/^HTTP\/1\.1 400/);
    expect(await sendRaw(port, "GET /api/machines HTTP/1.0\r\n\r\n")).toMatch(/^HTTP\/1\.1 400/);
    const two = `Host: evil.example\r\nHost: 127.0.0.1:${port}\r\n`;
    expect(await sendRaw(port, line("/api/machines", two))).toMatch(/^HTTP\/1\.1 4/);
  });
});

describe("a foreign Origin", () => {
  const foreign = [
    "http://evil.example",
    "null",
    "https://127.0.0.1:PORT",
    "http://127.0.0.1",
    "http://127.0.0.1:1",
    "file://",
    "http://localhost:PORT.evil.example",
  ];

  it.each(foreign)("of %j can change nothing and read nothing", async (pattern) => {
    const origin = pattern.replace("PORT", String(server.port));
    const headers = { origin };
    expect((await ask(server.port, `/api/machines/${machine}/events`, { ...adding(501), headers })).code).toBe(
      "origin-foreign",
    );
    expect(
      (
        await ask(server.port, `/api/machines/${machine}`, {
          method: "DELETE",
          json: { name: sampleMachine.name },
          headers,
        })
      ).code,
    ).toBe("origin-foreign");
    expect((await ask(server.port, "/api/machines", { headers })).code).toBe("origin-foreign");
    expect((await ask(server.port, "/api/live", { headers })).code).toBe("origin-foreign");
    await expectUntouched();
    expect(logTells("origin-foreign")).toBe(true);
  });

  it("is not needed to be refused: saying nothing of where a change comes from is refused too", async () => {
    const answer = await ask(server.port, `/api/machines/${machine}/events`, { ...adding(502), withoutOrigin: true });
    expect(answer.code).toBe("origin-foreign");
  });

  it.each(["cross-site", "same-site"])("told by the browser as %s is refused, whatever else it says", async (site) => {
    const headers = { "sec-fetch-site": site };
    expect((await ask(server.port, "/api/machines", { headers, withoutOrigin: true })).code).toBe("origin-foreign");
    expect((await ask(server.port, `/api/machines/${machine}/events`, { ...adding(503), headers })).code).toBe(
      "origin-foreign",
    );
    const none = { ...adding(503), headers: { "sec-fetch-site": "none" } };
    expect((await ask(server.port, `/api/machines/${machine}/events`, none)).code).toBe("origin-foreign");
  });

  it("that asks first is told nothing that would let it in", async () => {
    const headers = {
      origin: "http://evil.example",
      "access-control-request-method": "POST",
      "access-control-request-headers": "content-type",
    };
    const answers = [
      await ask(server.port, `/api/machines/${machine}/events`, { method: "OPTIONS", headers }),
      await ask(server.port, "/", { method: "OPTIONS", headers }),
      await ask(server.port, "/api/machines"),
      await ask(server.port, "/"),
    ];
    for (const { headers: got } of answers) {
      expect(Object.keys(got).filter((name) => name.startsWith("access-control-"))).toEqual([]);
      expect(got["cross-origin-resource-policy"]).toBe("same-origin");
    }
  });

  it("cannot send what a form could send", async () => {
    for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""]) {
      const body = JSON.stringify({ events: [note(504)] });
      const answer = await ask(server.port, `/api/machines/${machine}/events`, {
        body,
        headers: { "content-type": type },
      });
      expect(answer.code).toBe("type-unfit");
    }
    await expectUntouched();
  });
});

/** Everything that is not for whoever happens to be on the network. */
const guarded: readonly (readonly [path: string, asked: Asked])[] = [
  ["/api/machines", {}],
  ["/api/machines", { json: { id: "0".repeat(32), events: soundLogbook() } }],
  ["/api/machines/MACHINE", { method: "DELETE", json: { name: sampleMachine.name } }],
  ["/api/machines/MACHINE/events", {}],
  ["/api/machines/MACHINE/events", adding(505)],
  ["/api/machines/MACHINE/export", {}],
  ["/api/machines/import", { body: "{}", headers: { "content-type": "text/plain" } }],
  [`/api/machines/MACHINE/photographs/${"0".repeat(64)}`, {}],
  [
    `/api/machines/MACHINE/photographs/${"0".repeat(64)}`,
    { method: "PUT", body: "x", headers: { "content-type": "image/png" } },
  ],
  [`/api/machines/MACHINE/photographs/${"0".repeat(64)}`, { method: "DELETE" }],
  ["/api/live", {}],
  ["/api/me", {}],
  ["/api/devices", {}],
  ["/api/devices/abc", { method: "DELETE" }],
  ["/api/pairing", { json: { role: "owner" } }],
];

function askGuarded(port: number, [path, asked]: (typeof guarded)[number], more: Asked = {}): Promise<Answer> {
  const headers = { ...asked.headers, ...more.headers };
  return ask(port, path.replace("MACHINE", machine), { ...asked, ...more, headers });
}

describe("without a cookie, or with one that is no good,", () => {
  it("nothing is to be had from the network, for any address and way of asking", async () => {
    const forged = [
      "kilter-PORT=",
      "kilter-PORT=x",
      `kilter-PORT=${"A".repeat(43)}`,
      "kilter-PORT=__proto__",
      `kilter-PORT=${"%00".repeat(20)}`,
      "kilter-1=x; kilter-PORT=owner",
      "role=owner; loopback=true",
    ];
    for (const cookie of [undefined, ...forged]) {
      const given = cookie?.replace("PORT", String(server.networkPort));
      for (const one of guarded) {
        const answer = await askGuarded(server.networkPort, one, given === undefined ? {} : { cookie: given });
        expect([answer.status, answer.code], `${one[0]} with ${given}`).toEqual([401, "not-paired"]);
      }
    }
    await expectUntouched();
    expect(logTells("not-paired")).toBe(true);
  });

  it("headers of a proxy make nobody an owner, and make whoever sits at the computer no owner either", async () => {
    for (const name of ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-real-ip", "via"]) {
      const headers = { [name]: "127.0.0.1" };
      for (const port of [server.port, server.networkPort]) {
        expect((await ask(port, "/api/machines", { headers })).code).toBe("not-paired");
        expect((await ask(port, `/api/machines/${machine}/events`, { ...adding(506), headers })).code).toBe(
          "not-paired",
        );
      }
    }
  });

  it("nothing is to be had once its time is over", async () => {
    let now = Date.now();
    const surroundings = {
      nowMs: () => now,
      offsetMinutes: () => 0,
      randomBytes: (count: number) => Uint8Array.from({ length: count }, () => Math.floor(Math.random() * 256)),
    };
    const own = await testServer({ surroundings });
    const cookie = await pairedCookie(own, "owner");
    expect((await ask(own.networkPort, "/api/machines", { cookie })).status).toBe(200);
    now += 30 * 86_400_000;
    expect((await ask(own.networkPort, "/api/machines", { cookie })).code).toBe("not-paired");
    await own.close();
  });
});

describe("a helper", () => {
  it("can do nothing that is an owner's", async () => {
    const cookie = await pairedCookie(server, "helper");
    const owners: typeof guarded = guarded.filter(
      ([path, { method, json, body }]) =>
        method === "DELETE" ||
        /devices|pairing|import/.test(path) ||
        (path === "/api/machines" && (json ?? body) !== undefined),
    );
    expect(owners).toHaveLength(7);
    for (const one of owners) {
      const answer = await askGuarded(server.networkPort, one, { cookie });
      expect([answer.status, answer.code], one[0]).toEqual([403, "owner-only"]);
    }
    await expectUntouched();
    expect(logTells("owner-only")).toBe(true);
  });

  it("can add readings, and nothing that says what the machine is or what is wanted of it, not even among readings", async () => {
    const cookie = await pairedCookie(server, "helper");
    const path = `/api/machines/${machine}/events`;
    const owners = [
      { kind: "machine-described", machine: { ...sampleMachine, name: "mine now" } },
      { kind: "machine-renamed", name: "mine now" },
      { kind: "machine-set-aside", because: "gone" },
      { kind: "limit-set", finding: "squareness", limit: 5, unit: "mm/m" },
    ];
    for (const [n, body] of owners.entries()) {
      const events = [note(510), sampleEvent(511 + n, body)];
      expect((await ask(server.networkPort, path, { json: { events }, cookie })).code).toBe("owner-only");
    }
    await expectUntouched();
    const reading = sampleEvent(530, {
      kind: "reading-taken",
      run: "gap-1",
      station: "front middle",
      unit: "mm",
      goes: 0.5,
      doesNotGo: 0.55,
    });
    expect((await ask(server.networkPort, path, { json: { events: [reading] }, cookie })).json()).toMatchObject({
      added: 1,
    });
  });

  it("that is paired again as a helper is no more than that", async () => {
    const cookie = await pairedCookie(server, "helper");
    const second = await pairedCookie(server, "helper");
    const both = await ask(server.networkPort, "/api/me", { cookie: `${cookie}; ${second}` });
    expect(both.json()).toMatchObject({ role: "helper" });
  });
});

describe("guessing the pairing code", () => {
  it("a thousand times gets nowhere, and the right code is let in once the wait is over", async () => {
    let now = Date.now();
    const own = await testServer({
      surroundings: {
        nowMs: () => now,
        offsetMinutes: () => 0,
        randomBytes: (count) => Uint8Array.from({ length: count }, () => Math.floor(Math.random() * 256)),
      },
    });
    const { code } = own.offer("owner");
    const tally = new Map<string, number>();
    for (let n = 0; n < 1000; n += 1) {
      const guess = n.toString(31).padStart(8, "2").toUpperCase();
      const { status, code: refused, headers } = await ask(own.networkPort, "/api/pair", { json: { code: guess } });
      expect(headers["set-cookie"]).toBeUndefined();
      tally.set(refused, (tally.get(refused) ?? 0) + 1);
      if (status === 429) expect(Number(headers["retry-after"])).toBeGreaterThan(0);
      // Half a second between guesses.
      now += 500;
    }
    expect([...tally.keys()].sort()).toEqual(["code-wrong", "pairing-too-often"]);
    expect(tally.get("code-wrong")).toBeLessThan(15);
    const paired = (await ask(own.port, "/api/devices")).json<unknown[]>();
    expect(paired).toEqual([]);
    now += 300_000;
    // Its ten minutes are over long since; a new one works at once.
    expect((await ask(own.networkPort, "/api/pair", { json: { code } })).code).toBe("code-not-in-force");
    const fresh = own.offer("helper").code;
    expect((await ask(own.networkPort, "/api/pair", { json: { code: fresh } })).status).toBe(204);
    await own.close();
    const told = own.log().filter((line) => line.code === "pairing-too-often");
    expect(told.length).toBeGreaterThan(2);
    expect(told.length).toBeLessThan(20);
    expect(
      own
        .log()
        .map((line) => JSON.stringify(line))
        .join(),
    ).not.toContain(fresh);
  });

  it("is refused where nothing is shared, and for things that are no codes", async () => {
    const own = await testServer({ shared: false });
    expect((await ask(own.port, "/api/pair", { json: { code: "ABCDEFGH" } })).code).toBe("not-shared");
    expect((await ask(own.port, "/api/pairing", { json: { role: "owner" } })).code).toBe("not-shared");
    await own.close();
    for (const json of [
      {},
      { code: 5 },
      { code: ["A"] },
      { code: "A", name: 5 },
      { code: "A", name: "x".repeat(61) },
      { code: "A", name: "a\nb" },
    ]) {
      expect((await ask(server.networkPort, "/api/pair", { json })).code).toBe("body-unfit");
    }
  });
});

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
    expect(logTells("body-too-large")).toBe(true);
    await expectUntouched();
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
    await expectUntouched();
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

describe("floods of live connections", () => {
  it("are held off for each device, while others still get in", async () => {
    const cookie = await pairedCookie(server, "helper");
    const ears = await Promise.all(
      Array.from({ length: 40 }, () => openEar(server.networkPort, "/api/live?after=999999999", { cookie })),
    );
    const open = ears.filter(({ status }) => status === 200);
    expect(open).toHaveLength(12);
    expect(ears.filter(({ status }) => status === 429)).toHaveLength(28);
    const other = await pairedCookie(server, "helper");
    const late = await openEar(server.networkPort, "/api/live", { cookie: other });
    expect(late.status).toBe(200);
    for (const ear of [...ears, late]) ear.close();
    // Places are free again once the connections are gone; opening again and again is held off all the same.
    await new Promise((resolve) => setTimeout(resolve, 50));
    const statuses: number[] = [];
    for (let n = 0; n < 80; n += 1) {
      const ear = await openEar(server.networkPort, "/api/live?after=999999999", { cookie });
      statuses.push(ear.status);
      ear.close();
    }
    expect(statuses.slice(0, 10).every((status) => status === 200)).toBe(true);
    expect(statuses.at(-1)).toBe(429);
    expect(logTells("live-too-many")).toBe(true);
  });

  it("that only ask for what stands above them leave nothing behind", async () => {
    const cookie = await pairedCookie(server, "helper");
    for (let n = 0; n < 30; n += 1) {
      expect((await ask(server.networkPort, "/api/live", { method: "HEAD", cookie })).status).toBe(200);
    }
    const ear = await openEar(server.networkPort, "/api/live", { cookie });
    expect(ear.status).toBe(200);
    ear.close();
  });

  it("that read nothing are cut, and the server's memory does not grow with them", async () => {
    const own = await testServer({
      liveLimits: { inAll: 64, perDevice: 64, opensPerMinute: 1000, heartbeatMs: 200, stalledAfterMs: 400 },
    });
    const id = machineId();
    await ask(own.port, "/api/machines", { json: { id, events: soundLogbook() } });
    const sockets = await Promise.all(
      Array.from({ length: 20 }, async () => {
        const { connect } = await import("node:net");
        const socket = connect({ host: "127.0.0.1", port: own.port });
        socket.on("error", () => {});
        socket.write(`GET /api/live?after=0 HTTP/1.1\r\nHost: 127.0.0.1:${own.port}\r\n\r\n`);
        socket.pause();
        return socket;
      }),
    );
    // Far more than the system takes for a connection that nobody reads.
    for (let n = 0; n < 24; n += 1) {
      const events = Array.from({ length: 220 }, (_, k) => note(1000 + n * 220 + k, "x".repeat(4000)));
      expect((await ask(own.port, `/api/machines/${id}/events`, { json: { events } })).status).toBe(200);
    }
    await until(() => own.log().some(({ event }) => event === "live connection stalled"), 10_000);
    const ear = await openEar(own.port, "/api/live?after=0");
    await until(() => ear.heard.flatMap(({ ids }) => ids).length === 198 + 5 + 24 * 220, 10_000);
    ear.close();
    for (const socket of sockets) socket.destroy();
    await own.close();
  });
});

describe("every refusal", () => {
  it("has its words in whole sentences, says no code twice, and is answered as JSON that is kept nowhere", async () => {
    for (const [code, [status, words]] of Object.entries(refusals)) {
      expect(status, code).toBeGreaterThanOrEqual(400);
      expect(words, code).toMatch(/^[A-Z].*\.$/);
      expect(words, code).not.toMatch(/please|successfully|!|error/i);
    }
    expect(new Refused("not-paired").code).toBe("not-paired");
    const answer = await ask(server.networkPort, "/api/machines");
    expect(answer.headers["content-type"]).toBe("application/json; charset=utf-8");
    expect(answer.headers["cache-control"]).toBe("no-store");
  });

  it("is in the log by its code and its pattern, and nothing that was sent, no cookie and no address is", async () => {
    const cookie = await pairedCookie(server, "helper", "a name for the phone");
    await ask(server.networkPort, `/api/machines/${machine}/events?secret=in-the-address`, { cookie, ...adding(700) });
    await ask(server.networkPort, "/api/devices", { cookie });
    const text = readFileSync(server.logFile, "utf8");
    for (const secret of [
      "wiped the rails",
      sampleMachine.name,
      "in-the-address",
      cookie.split("=")[1]!,
      "a name for the phone",
      machine,
      "127.0.0.1",
    ]) {
      expect(text).not.toContain(secret);
    }
    expect(text).toContain('"route":"/api/machines/:id/events"');
    for (const line of server.log())
      expect(line).toMatchObject({
        at: expect.stringMatching(/^\d{4}-.*Z$/),
        level: expect.stringMatching(/^(?:info|warn|error)$/),
      });
  });
});
