import { describe, expect, it } from "vitest";
import { ServerLog } from "./server-log.ts";

function logWithClock() {
  let now = Date.UTC(2026, 2, 14);
  const lines: string[] = [];
  const log = new ServerLog(
    (line) => void lines.push(line),
    () => now,
  );
  const wait = (ms: number) => {
    now += ms;
  };
  return { log, wait, told: () => lines.map((line) => JSON.parse(line) as Record<string, unknown>), lines };
}

describe("the server's log", () => {
  it("is one JSON object a line, with its time in UTC and its level", () => {
    const { log, lines, told } = logWithClock();
    log.tell("info", "started", { shared: false });
    expect(lines[0]).toMatch(/^[^\n]*\n$/);
    expect(told()).toEqual([{ at: "2026-03-14T00:00:00.000Z", level: "info", event: "started", shared: false }]);
  });

  it("tells a refusal once for each kind and minute, and how many there were besides", () => {
    const { log, wait, told } = logWithClock();
    for (let n = 0; n < 500; n += 1) log.refused("host-foreign", { route: "/*" });
    log.refused("not-paired", { route: "/api/me" });
    expect(told().map(({ code, alsoBefore }) => [code, alsoBefore])).toEqual([
      ["host-foreign", 0],
      ["not-paired", 0],
    ]);
    wait(60_000);
    log.refused("host-foreign", { route: "/*" });
    expect(told().at(-1)).toMatchObject({ code: "host-foreign", alsoBefore: 499 });
  });

  it("tells at its end what has been counted and not told", () => {
    const { log, told } = logWithClock();
    for (let n = 0; n < 3; n += 1) log.refused("code-wrong", { route: "/api/pair" });
    log.close();
    log.close();
    expect(told()).toHaveLength(2);
    expect(told().at(-1)).toMatchObject({ code: "code-wrong", alsoBefore: 2 });
  });
});
