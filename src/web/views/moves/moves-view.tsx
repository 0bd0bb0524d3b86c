import type { StageProps } from "../stage-props.ts";
import { MoveScreen } from "./move-screen.tsx";
import { PlacesView } from "./places-view.tsx";
import { PlanBoard } from "./plan-board.tsx";
import { StockView } from "./stock-view.tsx";
import { whatIfFromQuery } from "./what-if.ts";

/** What is moved: the plan, one move of it, all places where the machine can be changed, and the leaves at hand. */
export function MovesView({ machine, rest, query }: StageProps) {
  const [part] = rest;
  const what = whatIfFromQuery(query);
  if (part === undefined) return <PlanBoard machine={machine} what={what} />;
  if (part === "stock") return <StockView machine={machine} />;
  if (part === "places") return <PlacesView machine={machine} />;
  return <MoveScreen key={part} machine={machine} adjuster={part} what={what} />;
}
