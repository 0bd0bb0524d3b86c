import { usualMachine } from "../../app/usual-machine.ts";
import { checks, fitToMeasureRound, shortRound } from "../../core/checks/catalogue.ts";
import type { Check } from "../../core/checks/check.ts";
import { gateFromTimeline } from "../../core/findings/gate.ts";
import { type Machine, machineFromDescription } from "../../core/machine/machine.ts";
import { openLogbook } from "../logbook-file.ts";
import { say, sayJson, table, wrap } from "../terminal.ts";

/** Lists the checks: the short round as the offer, or all that this machine has. */
export function listChecks(file: string | undefined, options: { all?: boolean; json?: boolean }): number {
  const session = file === undefined ? null : openLogbook(file);
  const machine = session?.machine ?? machineFromDescription(usualMachine);
  const gate = session && gateFromTimeline(machine, session.timeline);
  const done = new Set(session?.timeline.runs.filter((run) => run.withdrawn === null).map(({ check }) => check));
  const offered: readonly Check[] = options.all ? checks.filter((check) => isOf(check, machine)) : shortRound(machine);
  if (options.json) {
    sayJson(
      offered.map((check) => ({
        id: check.id,
        title: check.words.title,
        kind: check.kind,
        minutes: check.words.minutes,
        stage: check.words.stage,
        settles: check.words.settles,
        instruments: check.instruments,
        taken: done.has(check.id),
      })),
    );
    return 0;
  }
  const round = new Set(fitToMeasureRound(machine).map(({ id }) => id));
  const state = (check: Check) =>
    gate?.checks.find((g) => g.check.id === check.id)?.state ?? (done.has(check.id) ? "taken" : "");
  say(
    wrap(
      options.all
        ? "Every check of this machine."
        : "The short round: the eight of the fit-to-measure round first, then the checks that show most. --all lists every check.",
    ),
  );
  say();
  const rows = offered.map((check) => [
    check.id,
    check.words.title,
    `${check.words.minutes} min`,
    round.has(check.id) ? "fit to measure" : check.words.stage,
    state(check),
  ]);
  say(
    table(
      [
        { head: "check" },
        { head: "what it is", gives: true },
        { head: "time", right: true },
        { head: "when" },
        { head: "" },
      ],
      rows,
    ),
  );
  const name = file ?? "FILE";
  const next = offered.find((check) => state(check) === "" || state(check) === "not done");
  if (next) {
    say();
    say(wrap(`Next: \`kilter check ${next.id} ${name}\` says how it is done and how its readings are typed.`));
  }
  return 0;
}

function isOf(check: Check, machine: Machine): boolean {
  if (!check.layouts.includes(machine.layout.id)) return false;
  return check.kind === "geometric" || (check.appliesTo?.(machine) ?? true);
}
