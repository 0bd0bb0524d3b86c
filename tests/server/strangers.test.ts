import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ServerParts, serverApp } from "../../src/server/server-app.ts";
import { sampleEvent, sampleMachine, soundLogbook } from "../logbook/sample-events.ts";
import { type Answer, type Asked, ask, pairedCookie, sendRaw, type TestServer, testServer } from "./asking.ts";
import { type Attacked, adding, attackedServer, note } from "./attacked.ts";

let attacked: Attacked;
let server: TestServer;
let machine: string;
beforeAll(async () => {
  attacked = await attackedServer();
  ({ server, machine } = attacked);
});
afterAll(() => attacked.close());

describe("a foreign Host", () => {
  it.each([
    "evil.example",
    "evil.example:4170",
    "localhost.evil.example",
    "127.0.0.1",
    "127.0.0.1:1",
    "127.0.0.2:PORT",
    "[::2]:PORT",
    "[::ffff:127.0.0.1]:PORT",
    "::1",
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
    await attacked.expectUntouched();
    expect(attacked.logTells("host-foreign")).toBe(true);
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
    await attacked.expectUntouched();
    expect(attacked.logTells("origin-foreign")).toBe(true);
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
    await attacked.expectUntouched();
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
  it("every address but three is tried here", () => {
    const parts = { store: { lastSequence: () => 0 }, sharedUnder: () => [] } as unknown as ServerParts;
    const { app, live } = serverApp(parts);
    live.close();
    const open = ["GET /api/health", "GET /api/version", "POST /api/pair"];
    const names: Readonly<Record<string, string>> = { MACHINE: ":id", abc: ":device", ["0".repeat(64)]: ":sha256" };
    const tried = guarded.map(([path, { method, json, body }]) => {
      const pattern = path.split("/").map((part) => names[part] ?? part);
      return `${method ?? ((json ?? body) === undefined ? "GET" : "POST")} ${pattern.join("/")}`;
    });
    const routes = app.routes.filter(({ path }) => !path.includes("*")).map(({ method, path }) => `${method} ${path}`);
    expect([...new Set(routes)].sort()).toEqual([...open, ...tried].sort());
  });

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
    await attacked.expectUntouched();
    expect(attacked.logTells("not-paired")).toBe(true);
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
    await attacked.expectUntouched();
    expect(attacked.logTells("owner-only")).toBe(true);
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
    await attacked.expectUntouched();
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
    await attacked.lookAgain();
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
