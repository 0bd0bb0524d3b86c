import type { StageProps } from "../stage-props.ts";
import { BlankSheets, RoundSheetsView } from "./blank-sheet-view.tsx";
import { CheckListView } from "./check-list-view.tsx";
import { RoundTypeInView } from "./round-type-in-view.tsx";
import { RoundView } from "./round-view.tsx";
import { SetUpView } from "./set-up-view.tsx";
import { StationView } from "./station-view.tsx";
import { TypeInView } from "./type-in-view.tsx";

/** Everything about taking readings; which part of it, the rest of the address says. */
export function MeasureView({ machine, rest, query }: StageProps) {
  const [check, step, run] = rest;
  if (check === undefined) return <CheckListView machine={machine} />;
  if (check === "fit-to-measure" || check === "short-round") {
    return step === "type" ? (
      <RoundTypeInView key={check} machine={machine} id={check} />
    ) : (
      <RoundView key={check} machine={machine} id={check} card={query.get("card")} />
    );
  }
  if (check === "blank") return <RoundSheetsView machine={machine} cards={(query.get("of") ?? "").split(",")} />;
  switch (step) {
    case "take":
      return <StationView key={check} machine={machine} check={check} run={null} query={query} />;
    case "run":
      return <StationView key={check} machine={machine} check={check} run={run ?? ""} query={query} />;
    case "type":
      return <TypeInView key={check} machine={machine} check={check} query={query} />;
    case "blank":
      return <BlankSheets machine={machine} sheets={[{ check, query }]} />;
    default:
      return <SetUpView key={check} machine={machine} check={check} query={query} />;
  }
}
