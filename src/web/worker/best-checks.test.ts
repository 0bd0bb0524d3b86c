import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { nextFor, runTitle } from "../../app/next-for.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { addEvents, assessmentOf, forgetMachine } from "./held.ts";
import { bestChecksPage } from "./plan-pages.ts";

const machine = "00000000000000000000000000000001";

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, events, true);
});

function page() {
  const answer = bestChecksPage(machine);
  if (!answer.ok) throw new Error(JSON.stringify(answer.told));
  return answer.value;
}

describe("what Measure begins with once both rounds are done", () => {
  it("is that enough is known, where no reading is worth its minutes", () => {
    expect(page()).toMatchObject({ checks: [], words: [expect.stringMatching(/^You know enough\. /)] });
  });

  it("is the check that gains most for its minutes, set up as it gains most", () => {
    const runs = events.filter((event) => event.kind === "run-begun" && event.check === "tram-sweep");
    addEvents(
      machine,
      runs.map((event, i) => ({
        v: 1,
        id: `01a0705d-ffff-7000-8000-00000000000${i}`,
        at: "2026-12-01T09:00:00Z",
        kind: "run-withdrawn",
        run: (event as Extract<LogEvent, { kind: "run-begun" }>).run,
        because: "the spindle was changed",
      })) as never,
    );
    const assessment = assessmentOf(machine);
    if (!assessment.ok) throw new Error("the demonstration reads");
    const next = nextFor(assessment.value);
    if (next.kind !== "check") throw new Error(`it is ${next.kind}`);
    const gains = next.next.map(({ gainPerMinute }) => gainPerMinute);
    expect(gains).toEqual([...gains].sort((a, b) => b - a));
    const [best] = page().checks;
    expect(best?.title.toLowerCase()).toBe(`measure: ${runTitle(next.next[0].run).toLowerCase()}`);
    expect(best).toMatchObject({ why: next.next[0].reason, minutes: next.next[0].minutes });
    expect(best?.path).toMatch(/^measure\/[a-z-]+\?with=/);
  });
});
