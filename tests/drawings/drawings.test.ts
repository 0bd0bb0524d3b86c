import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { drawings as others } from "./drawings.ts";
import { workDrawings } from "./work-drawings.ts";

const drawings = { ...others, ...workDrawings };

const place = (name: string) => fileURLToPath(new URL(`../golden/drawings/${name}.svg`, import.meta.url));

/** Elements on lines of their own, so that a change shows where it is; numbers have two decimals at most already. */
function normalised(svg: string): string {
  return `${svg.replace(/></g, ">\n<")}\n`;
}

describe("drawings that are kept", () => {
  it.each(Object.keys(drawings))("%s is drawn as it was", (name) => {
    const drawn = normalised(drawings[name]());
    const kept = existsSync(place(name)) ? readFileSync(place(name), "utf8") : null;
    const changed = place(`${name}-changed`);
    if (!process.env.CI) {
      if (kept === null) writeFileSync(place(name), drawn);
      else if (kept !== drawn) writeFileSync(changed, drawn);
      else rmSync(changed, { force: true });
    }
    expect(kept === null && !process.env.CI ? drawn : kept).toBe(drawn);
  });

  it("writes no number with more than two decimals", () => {
    for (const draw of Object.values(drawings))
      expect(draw().replace(/<(style|desc)>.*?<\/\1>/gs, "")).not.toMatch(/\d\.\d{3}/);
  });
});
