import { expect, it } from "vitest";
import { momentsInWords } from "./moments.ts";

const at = (...texts: readonly string[]) => texts.map((text) => ({ at: text }));
const times = (events: readonly { readonly at: string }[]) => events.map((event) => Date.parse(event.at));

it("gives a day by itself its date, at the place where it was written", () => {
  const events = at("2026-09-05T00:30:00+02:00", "2026-10-02T13:20:00+02:00");
  expect(momentsInWords(times(events), events)).toEqual(["2026-09-05", "2026-10-02"]);
});

it("gives two of one day the time of day beside it", () => {
  const events = at("2026-09-05T10:40:00+02:00", "2026-10-02T13:20:00+02:00", "2026-10-02T17:05:00.003+02:00");
  expect(momentsInWords(times(events), events)).toEqual(["2026-09-05", "2026-10-02 13:20", "2026-10-02 17:05"]);
});

it("takes the time of the world where nobody has written it", () => {
  expect(momentsInWords([Date.parse("2026-09-05T00:30:00+02:00")])).toEqual(["2026-09-04"]);
});

it("gives two of one minute the seconds as well", () => {
  const events = at("2026-09-05T10:40:00+02:00", "2026-09-05T10:40:21+02:00", "2026-09-05T10:41:00+02:00");
  expect(momentsInWords(times(events), events)).toEqual([
    "2026-09-05 10:40:00",
    "2026-09-05 10:40:21",
    "2026-09-05 10:41",
  ]);
});
