// Fifty devices on one server, twenty of them writing, for a minute:
//   node --import tsx bench/server.ts 60
import { readFileSync } from "node:fs";
import { print, tell } from "./measure.ts";
import { runLoad } from "./server-load.ts";

const budgets = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8"));
const { devices, writers, seconds, pauseMs, mostMs, mostMegabytes } = budgets.server as Readonly<
  Record<string, number>
>;

const asked = process.argv[2];
const result = await runLoad({
  devices: devices!,
  writers: writers!,
  seconds: asked === undefined ? seconds! : Number(asked),
  pauseMs: pauseMs!,
  seed: 4170,
});
tell(`${devices} devices, ${writers} of them writing: ${result.events} events, each heard on every device`);
print(
  { name: "an event is on every device, 99 of 100", value: result.heardP99Ms, unit: "ms", budget: mostMs! },
  { name: "  and acknowledged", value: result.acknowledgedP99Ms, unit: "ms", budget: mostMs! },
  { name: "  by a server that takes", value: result.megabytes, unit: "MB", budget: mostMegabytes! },
);
const { lost, double, unknown } = result;
if (lost + double + unknown > 0) throw new Error(`${lost} lost, ${double} heard twice, ${unknown} never sent`);
