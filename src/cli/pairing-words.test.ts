import jsqrModule from "jsqr";
import { describe, expect, it } from "vitest";
import { pairingLink } from "../server/pairing.ts";
import { squareCode } from "./pairing-words.ts";

// The package is older than modules: what it exports stands one step further in.
const readCode = (jsqrModule as unknown as { default?: typeof jsqrModule }).default ?? jsqrModule;

/** The characters as a camera sees them on a dark screen: blocks are light, the rest is dark. */
function photograph(text: string) {
  const scale = 4;
  const lines = text.split("\n");
  const [width, height] = [lines[0]!.length * scale, lines.length * 2 * scale];
  const pixels = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const sign = lines[Math.floor(y / (2 * scale))]![Math.floor(x / scale)];
      const isUpper = Math.floor(y / scale) % 2 === 0;
      const isLight = sign === "█" || (sign === "▀" && isUpper) || (sign === "▄" && !isUpper);
      pixels.fill(isLight ? 255 : 0, (y * width + x) * 4, (y * width + x) * 4 + 3);
      pixels[(y * width + x) * 4 + 3] = 255;
    }
  }
  return { pixels, width, height };
}

describe("the square code", () => {
  it.each(["http://192.168.1.5:4170", "https://172.31.255.255:65535"])("of %s is read by a camera", (address) => {
    const link = pairingLink(address, "ABCD2345");
    const { pixels, width, height } = photograph(squareCode(link, false));
    expect(readCode(pixels, width, height)?.data).toBe(`${address}/#pair=ABCD2345`);
  });

  it("fits a terminal of eighty columns and states its colours where there are any", () => {
    const lines = squareCode(pairingLink("https://172.31.255.255:65535", "ABCD2345"), true).split("\n");
    const [begin, end] = ["\u001b[97;40m", "\u001b[0m"];
    for (const line of lines) {
      expect(line.startsWith(begin) && line.endsWith(end)).toBe(true);
      expect(line.slice(begin.length, -end.length)).toMatch(/^[█▀▄ ]{1,80}$/);
    }
  });
});
