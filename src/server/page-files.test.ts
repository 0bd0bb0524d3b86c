import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { pageResponse, readPageFiles } from "./page-files.ts";
import { Refused } from "./refusals.ts";

const folder = mkdtempSync(join(tmpdir(), "kilter-page-"));
mkdirSync(join(folder, "assets"));
writeFileSync(join(folder, "index.html"), "<!doctype html><title>Kilter</title>");
writeFileSync(join(folder, "assets/main-4f2a.js"), "export const one = 1;\n".repeat(200));
writeFileSync(
  join(folder, "assets/solver.wasm"),
  Uint8Array.from({ length: 3000 }, (_, i) => i & 7),
);
writeFileSync(join(folder, "icon.svg"), "<svg xmlns='http://www.w3.org/2000/svg'/>");
writeFileSync(join(folder, "..", "secret.txt"), "not served");
const files = readPageFiles(folder);

function get(path: string, headers: Record<string, string> = {}) {
  return pageResponse(files, path, new Headers(headers));
}

describe("the page", () => {
  it.each(["/", "/index.html", "/machines/4f2a/measure"])(
    "is what %s shows, asked for anew each time",
    async (path) => {
      const response = get(path);
      expect(await response.text()).toContain("<title>Kilter</title>");
      expect(response.headers.get("cache-control")).toBe("no-cache");
      expect(response.headers.get("content-type")).toBe("text/html; charset=utf-8");
    },
  );

  it("keeps for ever what has its content in its name", () => {
    expect(get("/assets/main-4f2a.js").headers.get("cache-control")).toContain("immutable");
    expect(get("/assets/main-4f2a.js").headers.get("content-type")).toContain("text/javascript");
    expect(get("/assets/solver.wasm").headers.get("content-type")).toBe("application/wasm");
  });

  it("is packed for whoever takes that, and the same when unpacked", async () => {
    const packed = get("/assets/main-4f2a.js", { "accept-encoding": "br, gzip" });
    expect(packed.headers.get("content-encoding")).toBe("gzip");
    const plain = await get("/assets/main-4f2a.js").text();
    expect(gunzipSync(Buffer.from(await packed.arrayBuffer())).toString()).toBe(plain);
    expect(get("/assets/main-4f2a.js", { "accept-encoding": "gzip;q=0" }).headers.get("content-encoding")).toBeNull();
  });

  it("is not sent again to whoever has it", () => {
    const tag = get("/icon.svg").headers.get("etag")!;
    expect(get("/icon.svg", { "if-none-match": tag }).status).toBe(304);
    expect(get("/icon.svg", { "if-none-match": '"other"' }).status).toBe(200);
  });

  it("may load nothing from elsewhere, run nothing inline, and be framed by nobody", () => {
    const policy = get("/").headers.get("content-security-policy")!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain("unsafe-inline");
    expect(policy).not.toContain("'unsafe-eval'");
    expect(policy).not.toMatch(/https?:|\*/);
    expect(get("/").headers.get("x-content-type-options")).toBe("nosniff");
  });

  it.each([
    "/secret.txt",
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/assets/../../secret.txt",
    "/assets/..%2f..%2fsecret.txt",
    "/assets/gone.js",
    "/__proto__.js",
    "//etc/passwd.txt",
  ])("has nothing under %s", (path) => {
    expect(() => get(path)).toThrow(Refused);
  });
});
