import { X509Certificate } from "node:crypto";
import { mkdtempSync, readFileSync } from "node:fs";
import { request } from "node:https";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startServer } from "../../src/server/start-server.ts";
import { ask, hereAndNow, type TestServer, testServer } from "./asking.ts";

let server: TestServer;
beforeAll(async () => {
  server = await testServer({ tls: true });
});
afterAll(() => server.close());

/** Over TLS, trusting the server's own certificate and no other. */
function askOverTls(path: string, json?: unknown, headers: Record<string, string> = {}) {
  const pem = readFileSync(join(server.data, "certificate.pem"), "utf8");
  const ca = pem.slice(pem.indexOf("-----BEGIN CERTIFICATE"));
  const body = json === undefined ? undefined : JSON.stringify(json);
  const sent = {
    host: "127.0.0.1",
    port: server.networkPort,
    path,
    ca,
    method: body === undefined ? "GET" : "POST",
    headers: {
      origin: `https://127.0.0.1:${server.networkPort}`,
      ...(body !== undefined && { "content-type": "application/json", "content-length": Buffer.byteLength(body) }),
      ...headers,
    },
  };
  return new Promise<{ status: number; text: string; cookie: string }>((resolve, reject) => {
    const asked = request(sent, (response) => {
      let text = "";
      response.on("data", (chunk) => {
        text += chunk;
      });
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, text, cookie: response.headers["set-cookie"]?.[0] ?? "" }),
      );
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

describe("sharing with a certificate", () => {
  it("pairs over the encrypted door, with a cookie that goes over no other", async () => {
    expect(server.sharedUnder).toEqual([`https://127.0.0.1:${server.networkPort}`]);
    const { code } = server.offer("owner");
    const paired = await askOverTls("/api/pair", { code });
    expect(paired.status).toBe(204);
    expect(paired.cookie).toMatch(/; HttpOnly; Secure; SameSite=Strict$/);
    const me = await askOverTls("/api/me", undefined, { cookie: paired.cookie.split(";")[0]! });
    expect(JSON.parse(me.text)).toEqual({ role: "owner", shared: true, loopback: false });
  });

  it("shows the fingerprint of the certificate that it serves", () => {
    const pem = readFileSync(join(server.data, "certificate.pem"), "utf8");
    const cert = new X509Certificate(pem.slice(pem.indexOf("-----BEGIN CERTIFICATE")));
    expect(server.fingerprint).toBe(cert.fingerprint256);
  });

  it("takes a page of the same address without encryption for a foreign one", async () => {
    const origin = `http://127.0.0.1:${server.networkPort}`;
    const { code } = server.offer("helper");
    expect(JSON.parse((await askOverTls("/api/pair", { code }, { origin })).text).error.code).toBe("origin-foreign");
  });

  it("answers nothing on that door to whoever does not encrypt", async () => {
    await expect(ask(server.networkPort, "/api/health")).rejects.toThrow();
  });

  it("leaves the computer's own door as it is", async () => {
    expect((await ask(server.port, "/api/me")).json()).toEqual({ role: "owner", shared: true, loopback: true });
  });
});

describe("a server that is not shared", () => {
  it("listens on the loopback alone", async () => {
    const own = await testServer({ shared: false });
    expect(own.sharedUnder).toEqual([]);
    expect((await ask(own.port, "/api/me")).json()).toMatchObject({ shared: false });
    await own.close();
  });

  it("takes the next port that is free, where it may", async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
    const { port } = other.address() as { port: number };
    const own = await testServer({ shared: false, port, tries: 20 });
    expect(own.port).toBeGreaterThan(port);
    expect(own.port).toBeLessThan(port + 20);
    await own.close();
    other.close();
  });

  it("that finds no port gives the folder back, so that it can be started again", async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
    const { port } = other.address() as { port: number };
    const data = mkdtempSync(join(tmpdir(), "kilter-server-"));
    const options = { data, port, tries: 1, addresses: [], tls: false, web: null, version: "0.0.0" };
    const demonstration = readFileSync(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url));
    const refused = await startServer({ ...options, demonstration, surroundings: hereAndNow });
    expect(refused.ok ? [] : refused.diagnostics.map(({ code }) => code)).toEqual(["port-taken"]);
    other.close();
    const own = await testServer({ data, shared: false });
    await own.close();
  });
});
