import { readFileSync } from "node:fs";
import { connect } from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Refused, refusals } from "../../src/server/refusals.ts";
import { sampleMachine, soundLogbook } from "../logbook/sample-events.ts";
import { ask, machineId, openEar, pairedCookie, type TestServer, testServer, until } from "./asking.ts";
import { type Attacked, adding, attackedServer, note } from "./attacked.ts";

let attacked: Attacked;
let server: TestServer;
let machine: string;
beforeAll(async () => {
  attacked = await attackedServer();
  ({ server, machine } = attacked);
});
afterAll(() => attacked.close());

/** The server is in this process: in each turn it sees what has happened to its connections. */
async function turns(count: number): Promise<void> {
  for (let n = 0; n < count; n += 1) await new Promise((resolve) => setTimeout(resolve, 3));
}

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
    await turns(20);
    const statuses: number[] = [];
    for (let n = 0; n < 80; n += 1) {
      const ear = await openEar(server.networkPort, "/api/live?after=999999999", { cookie });
      statuses.push(ear.status);
      ear.close();
    }
    expect(statuses.slice(0, 10).every((status) => status === 200)).toBe(true);
    expect(statuses.at(-1)).toBe(429);
    expect(attacked.logTells("live-too-many")).toBe(true);
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

  it("that read nothing are cut, and others hear everything", async () => {
    const own = await testServer({
      liveLimits: { inAll: 64, perDevice: 64, opensPerMinute: 1000, heartbeatMs: 200, stalledAfterMs: 1500 },
    });
    const id = machineId();
    await ask(own.port, "/api/machines", { json: { id, events: soundLogbook() } });
    const sockets = Array.from({ length: 20 }, () => {
      const socket = connect({ host: "127.0.0.1", port: own.port });
      socket.on("error", () => {});
      socket.write(`GET /api/live?after=0 HTTP/1.1\r\nHost: 127.0.0.1:${own.port}\r\n\r\n`);
      socket.pause();
      return socket;
    });
    // Far more than the system takes for a connection that nobody reads.
    for (let n = 0; n < 24; n += 1) {
      const events = Array.from({ length: 220 }, (_, k) => note(1000 + n * 220 + k, "x".repeat(4000)));
      expect((await ask(own.port, `/api/machines/${id}/events`, { json: { events } })).status).toBe(200);
    }
    await until(() => own.log().some(({ event }) => event === "live connection stalled"));
    const ear = await openEar(own.port, "/api/live?after=0");
    await until(() => ear.heard.flatMap(({ ids }) => ids).length === 198 + 5 + 24 * 220);
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
