import { mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { stillClock } from "../../tests/server/still-clock.ts";
import { mostDevices, PairedDevices } from "./paired-devices.ts";

const dayMs = 86_400_000;

function file(): string {
  return join(mkdtempSync(join(tmpdir(), "kilter-devices-")), "devices.json");
}

describe("paired devices", () => {
  it("are known by their token after a new start, with their role", () => {
    const [path, source] = [file(), stillClock(1)];
    const { token, device } = new PairedDevices(path, source).pair("helper", "phone");
    expect(new PairedDevices(path, source).byToken(token)).toEqual(device);
    expect(device.role).toBe("helper");
  });

  it("leave no token in the file, which only its user may read", () => {
    const path = file();
    const { token } = new PairedDevices(path, stillClock(1)).pair("owner", "");
    expect(readFileSync(path, "utf8")).not.toContain(token);
    expect(token).toHaveLength(43);
    if (process.platform !== "win32") expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(readdirSync(join(path, ".."))).toEqual(["devices.json"]);
  });

  it("are not known by a token that was made up, changed or is empty", () => {
    const devices = new PairedDevices(null, stillClock(1));
    const { token } = devices.pair("owner", "");
    for (const forged of ["", "x", `${token}x`, token.slice(1), token.toLowerCase()]) {
      expect(devices.byToken(forged)).toBeNull();
    }
  });

  it("are forgotten thirty days after they were last seen", () => {
    const source = stillClock(1);
    const devices = new PairedDevices(null, source);
    const { token } = devices.pair("owner", "");
    source.wait(29 * dayMs);
    expect(devices.byToken(token)).not.toBeNull();
    source.wait(29 * dayMs);
    expect(devices.byToken(token)).not.toBeNull();
    source.wait(30 * dayMs);
    expect(devices.byToken(token)).toBeNull();
    expect(devices.list()).toEqual([]);
  });

  it("are forgotten half a year after they were paired, however often they come", () => {
    const source = stillClock(1);
    const devices = new PairedDevices(null, source);
    const { token } = devices.pair("owner", "");
    for (let n = 0; n < 17; n += 1) {
      source.wait(10 * dayMs);
      expect(devices.byToken(token)).not.toBeNull();
    }
    source.wait(10 * dayMs);
    expect(devices.byToken(token)).toBeNull();
  });

  it("are out at once when they are removed, also after a new start", () => {
    const [path, source] = [file(), stillClock(1)];
    const devices = new PairedDevices(path, source);
    const { token, device } = devices.pair("helper", "");
    expect(devices.revoke(device.id)).toBe(true);
    expect(devices.revoke(device.id)).toBe(false);
    expect(devices.byToken(token)).toBeNull();
    expect(new PairedDevices(path, source).byToken(token)).toBeNull();
  });

  it("are full at their number", () => {
    const devices = new PairedDevices(null, stillClock(1));
    for (let n = 0; n < mostDevices; n += 1) devices.pair("helper", "");
    expect(devices.isFull).toBe(true);
  });

  it.each(["", "{", "[]", '{"v":2,"devices":[]}', '{"v":1,"devices":[{"id":"x"}]}', "null"])(
    "are none where the file is %j, which is kept aside",
    (content) => {
      const path = file();
      writeFileSync(path, content);
      const devices = new PairedDevices(path, stillClock(1));
      expect(devices.isReadable).toBe(false);
      expect(devices.list()).toEqual([]);
      expect(readFileSync(`${path}.unreadable`, "utf8")).toBe(content);
    },
  );
});
