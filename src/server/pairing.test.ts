import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stillClock } from "../../tests/server/still-clock.ts";
import { codeAlphabet, codeLength, Pairing } from "./pairing.ts";

describe("a pairing code", () => {
  it("has eight signs that nobody takes for one another", () => {
    expect(codeAlphabet).toHaveLength(31);
    expect(codeAlphabet).not.toMatch(/[01ILO]/);
    const source = stillClock(7);
    const pairing = new Pairing(source);
    for (let n = 0; n < 100; n += 1) {
      expect(pairing.offer("helper").code).toMatch(new RegExp(`^[${codeAlphabet}]{${codeLength}}$`));
    }
  });

  it("lets one device in, with the role it was made for, and no second", () => {
    const pairing = new Pairing(stillClock(7));
    const { code } = pairing.offer("owner");
    expect(pairing.try(code, "10.0.0.2")).toEqual({ result: "paired", role: "owner" });
    expect(pairing.try(code, "10.0.0.2")).toEqual({ result: "not in force" });
  });

  it("may be typed in small letters, with spaces and hyphens", () => {
    const pairing = new Pairing(stillClock(7));
    const { code } = pairing.offer("helper");
    const typed = ` ${code.slice(0, 4).toLowerCase()}-${code.slice(4).toLowerCase()} `;
    expect(pairing.try(typed, "10.0.0.2").result).toBe("paired");
  });

  it("is over after ten minutes", () => {
    const source = stillClock(7);
    const pairing = new Pairing(source);
    const { code } = pairing.offer("helper");
    source.wait(599_999);
    const late = pairing.offer("helper").code;
    expect(pairing.try(code, "10.0.0.2").result).toBe("wrong");
    source.wait(600_000);
    expect(pairing.try(late, "10.0.0.2").result).toBe("not in force");
  });

  it("uses every sign about equally often", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 - 1 }), (seed) => {
        let state = seed;
        // A generator of the simplest kind is enough to spread bytes.
        const next = () => {
          state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
          return state >> 16;
        };
        const randomBytes = (count: number) => Uint8Array.from({ length: count }, next);
        const pairing = new Pairing({ nowMs: () => 0, randomBytes });
        const counts = new Map<string, number>();
        for (let n = 0; n < 400; n += 1) {
          for (const sign of pairing.offer("helper").code) counts.set(sign, (counts.get(sign) ?? 0) + 1);
        }
        const expected = (400 * codeLength) / codeAlphabet.length;
        // Six standard deviations of a count.
        const most = 6 * Math.sqrt(expected);
        for (const sign of codeAlphabet) expect(Math.abs((counts.get(sign) ?? 0) - expected)).toBeLessThan(most);
      }),
      { seed: 4170, numRuns: 20 },
    );
  });
});

describe("guessing", () => {
  it("waits longer after each wrong code, and asking while waiting changes nothing", () => {
    const source = stillClock(7);
    const pairing = new Pairing(source);
    const { code } = pairing.offer("helper");
    const results = Array.from({ length: 5 }, () => pairing.try("WRONGONE", "10.0.0.2").result);
    expect(results).toEqual(["wrong", "wrong", "wrong", "wait", "wait"]);
    // Even the right one is not looked at.
    expect(pairing.try(code, "10.0.0.2")).toEqual({ result: "wait", seconds: 2 });
    source.wait(2000);
    expect(pairing.try("WRONGONE", "10.0.0.2").result).toBe("wrong");
    expect(pairing.try(code, "10.0.0.2")).toEqual({ result: "wait", seconds: 4 });
    source.wait(4000);
    expect(pairing.try(code, "10.0.0.2").result).toBe("paired");
  });

  it("from ever new addresses, however patiently, has fewer than twenty guesses compared before the code is over", () => {
    const source = stillClock(7);
    const pairing = new Pairing(source);
    const { code, untilMs } = pairing.offer("helper");
    let compared = 0;
    for (let n = 0; source.nowMs() < untilMs; n += 1) {
      if (pairing.try("WRONGONE", `10.0.${n >> 8}.${n & 255}`).result === "wrong") compared += 1;
      source.wait(100);
    }
    expect(compared).toBeGreaterThan(10);
    expect(compared).toBeLessThan(20);
    expect(pairing.try(code, "10.9.9.9").result).not.toBe("paired");
  });

  it("before leaves no wait for a device with a new code, and a wait for the guesser", () => {
    const source = stillClock(7);
    const pairing = new Pairing(source);
    pairing.offer("helper");
    for (let n = 0; n < 40; n += 1) pairing.try("WRONGONE", `10.0.0.${n >> 2}`);
    const { code } = pairing.offer("helper");
    expect(pairing.try("WRONGONE", "10.0.0.0").result).toBe("wait");
    expect(pairing.try(code, "10.0.0.99").result).toBe("paired");
    pairing.offer("helper");
    source.wait(3_600_001);
    pairing.offer("helper");
    expect(pairing.try("WRONGONE", "10.0.0.0").result).toBe("wrong");
  });

  it("by somebody else does not make a device wait that has not guessed, as long as few are wrong in all", () => {
    const pairing = new Pairing(stillClock(7));
    const { code } = pairing.offer("helper");
    for (let n = 0; n < 5; n += 1) pairing.try("WRONGONE", "10.0.0.66");
    expect(pairing.try(code, "10.0.0.2").result).toBe("paired");
  });
});
