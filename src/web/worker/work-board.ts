import { type DemandDraft, dropDemand, limitDemand, ownDemand, usualLimit } from "../../app/demand-changes.ts";
import { groundsOfDemand } from "../../app/demand-grounds.ts";
import { gateInWords } from "../../app/gate-words.ts";
import { kindsOfWork, usualKindOfWork } from "../../app/kinds-of-work.ts";
import { nextForDemands } from "../../app/next-for.ts";
import { demandResults } from "../../app/plan-for.ts";
import { statedDemands } from "../../app/wished-demands.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import type { Machine } from "../../core/machine/machine.ts";
import { demandKinds } from "../../core/work/catalogue.ts";
import type { DemandKind } from "../../core/work/demand-kind.ts";
import type { ReasonedDemand } from "../../core/work/kind-of-work.ts";
import { middleOfTravel } from "../../core/work/pictures/work-place.ts";
import { assessmentOf, sessionOf, versionOf } from "./held.ts";
import { thingsOfAnswer, wordsOfAnswer } from "./plan-things.ts";
import type { Answer } from "./protocol.ts";
import type { DemandChange, DemandGrounds, DemandKindPage, WorkBoard } from "./protocol-work.ts";
import { shareRows } from "./share-rows.ts";
import { answerFrom } from "./told.ts";

/** What is asked of the machine, by the kind of work and by its user. */
export function workBoard(machine: string): Answer<WorkBoard> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { wishes } = assessment.timeline;
    return {
      machine: assessment.timeline.machine.name,
      version: versionOf(machine),
      gate: gateInWords(assessment),
      isAsked: wishes.kindOfWork !== null,
      chosen: wishes.kindOfWork ?? usualKindOfWork.id,
      kinds: [...kindsOfWork.values()].map(({ id, name, about }) => ({ id, name, about })),
      demands: statedDemands(assessment.machine, wishes).map(({ demand, name, usualLimit, dropped }) => ({
        id: demand.id,
        title: demand.title,
        unit: demand.unit,
        limitValue: demand.limit,
        name,
        usual:
          usualLimit === null || usualLimit === demand.limit ? "" : `${formatTrimmed(usualLimit, 3)} ${demand.unit}`,
        dropped,
        // Demands of one's own come without reasons.
        why: (demand as Partial<ReasonedDemand>).why ?? "",
        decidedBy: (demand as Partial<ReasonedDemand>).decidedBy ?? "",
      })),
      demandKinds: demandKinds.map((kind) => kindPage(kind, assessment.machine)),
    };
  });
}

function kindPage({ id, words, unit, sizes }: DemandKind, machine: Machine): DemandKindPage {
  const numbers: Record<string, number> = {};
  const chosen = { machine, numbers, answers: {}, middle: middleOfTravel(machine.dimensions), placed: false };
  return {
    id,
    words,
    unit,
    sizes: sizes.map((size) => {
      if ("answers" in size) return size;
      const to = Math.min(size.to, size.most?.(chosen) ?? size.to);
      const usual = Math.min(size.usual(chosen), to);
      numbers[size.key] = usual;
      return { key: size.key, words: size.words, unit: size.unit, from: size.from, to, usual };
    }),
  };
}

/** What one demand means, and which check would decide it. */
export function demandGrounds(machine: string, kind: string | null, demand: string): Answer<DemandGrounds> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { results } = demandResults(assessment, kind ?? undefined);
    const result = results.find((candidate) => candidate.demand.id === demand);
    if (result === undefined) return { meaning: "", doubtFrom: [], words: [], checks: [] };
    const isOpen = result.verdict === "not known yet";
    const next = isOpen ? nextForDemands(assessment, [result]) : null;
    const { meaning, doubtFrom } = groundsOfDemand(assessment, result);
    return {
      meaning,
      doubtFrom: shareRows(doubtFrom),
      words: next === null ? [] : wordsOfAnswer(next),
      checks: next === null ? [] : thingsOfAnswer(next),
    };
  });
}

/** A change of what is asked, made into what the logbook would take. */
export function changeDemand(machine: string, change: DemandChange): Answer<DemandDraft> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => null as never);
  const { timeline } = session.value;
  if (change.kind === "ask") {
    const { of, sizes, limit } = change;
    const unit = demandKinds.find(({ id }) => id === of)?.unit ?? "mm";
    return answerFrom(ownDemand(session.value.machine, { kind: of, sizes }, { limit, unit }), (draft) => draft);
  }
  const stated = statedDemands(session.value.machine, timeline.wishes).find(
    ({ demand }) => demand.id === change.demand,
  );
  // Gone meanwhile, by another device: there is nothing left to change.
  if (stated === undefined) return { ok: false, told: [] };
  const draft =
    change.kind === "limit"
      ? limitDemand(timeline.wishes, stated, { limit: change.limit, unit: stated.demand.unit })
      : change.kind === "usual"
        ? usualLimit(stated)
        : dropDemand(stated);
  return { ok: true, value: draft, told: [] };
}
