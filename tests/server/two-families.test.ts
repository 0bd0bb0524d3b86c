import { createServer, type Server } from "node:net";
import { networkInterfaces } from "node:os";
import { describe, expect, it } from "vitest";
import { ask, type TestServer, testServer } from "./asking.ts";

/** Where the computer has no IPv6, the server must do without. */
const hasSix = Object.values(networkInterfaces())
  .flat()
  .some((at) => at?.address === "::1");

async function within<T>(server: TestServer, doing: () => Promise<T>): Promise<T> {
  try {
    return await doing();
  } finally {
    await server.close();
  }
}

describe("a computer that is asked by either of its own addresses", () => {
  it("answers under the name, under 127.0.0.1 and under [::1], on one port and as owner", async () => {
    const server = await testServer({ shared: false });
    const { port } = server;
    const answers = await within(server, () =>
      Promise.all(
        [
          ["127.0.0.1", "127.0.0.1"],
          ["127.0.0.1", "localhost"],
          ...(hasSix ? ["[::1]", "localhost"].map((name) => ["::1", name]) : []),
        ].map(([at, name]) => {
          const headers = { host: `${name}:${port}`, origin: `http://${name}:${port}` };
          return ask(port, "/api/me", { at: at!, headers });
        }),
      ),
    );
    expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 200));
    for (const answer of answers) expect(answer.json()).toEqual({ role: "owner", shared: false, loopback: true });
  });

  it.runIf(hasSix)("keeps foreign names out on the second address too", async () => {
    const server = await testServer({ shared: false });
    const { port } = server;
    const foreign: readonly Readonly<Record<string, string>>[] = [
      { host: `evil.example:${port}` },
      { origin: "http://evil.example" },
    ];
    const answers = await within(server, () =>
      Promise.all(foreign.map((headers) => ask(port, "/api/me", { at: "::1", headers }))),
    );
    expect(answers.map(({ code }) => code)).toEqual(["host-foreign", "origin-foreign"]);
  });

  it.runIf(hasSix)("passes over a port on which somebody else answers under localhost", async () => {
    const [other, port] = await taken("::1");
    const server = await testServer({ shared: false, port, tries: 20 });
    await server.close();
    other.close();
    expect(server.port).toBeGreaterThan(port);
  });
});

describe.runIf(hasSix)("a workshop's network with IPv6", () => {
  it("pairs a device that comes by such an address, and shows it in brackets", async () => {
    const server = await testServer({ addresses: ["::1"] });
    const port = server.networkPort;
    const me = await within(server, async () => {
      expect(server.sharedUnder).toEqual([`http://[::1]:${port}`]);
      expect((await ask(port, "/api/me", { at: "::1" })).code).toBe("not-paired");
      const paired = await ask(port, "/api/pair", { at: "::1", json: { code: server.offer("helper").code } });
      const cookie = paired.headers["set-cookie"]![0]!.split(";")[0]!;
      return await ask(port, "/api/me", { at: "::1", cookie });
    });
    expect(me.json()).toEqual({ role: "helper", shared: true, loopback: false });
  });

  it("leaves out an address that is gone by the time it is to be listened on", async () => {
    const server = await testServer({ addresses: ["127.0.0.1", "fdff:ffff:ffff::1"], networkPort: 0 });
    await server.close();
    expect(server.sharedUnder).toEqual([`http://127.0.0.1:${server.networkPort}`]);
  });

  it("encrypts there with the same certificate", async () => {
    const server = await testServer({ addresses: ["127.0.0.1", "::1"], tls: true });
    await server.close();
    expect(server.sharedUnder).toEqual(["127.0.0.1", "[::1]"].map((host) => `https://${host}:${server.networkPort}`));
    expect(server.fingerprint).toMatch(/^(?:[0-9A-F]{2}:){31}[0-9A-F]{2}$/);
  });
});

function taken(address: string): Promise<[Server, number]> {
  const other = createServer();
  return new Promise((resolve) => {
    other.listen(0, address, () => resolve([other, (other.address() as { port: number }).port]));
  });
}
