import type { ComponentChildren } from "preact";
import type { StageProps } from "./stage-props.ts";

export interface Stage {
  /** Its place in the address, and the key of its sentence in the overview. */
  readonly id: string;
  readonly title: string;
  readonly load: () => Promise<(props: StageProps) => ComponentChildren>;
}

/** The stages of one machine, in the order in which they are shown. A new one is a folder beside this file and a line here. */
export const stages: readonly Stage[] = [
  { id: "overview", title: "Drawing", load: async () => (await import("./overview/overview-view.tsx")).OverviewView },
  { id: "next", title: "Next", load: async () => (await import("./next/next-view.tsx")).NextView },
  { id: "measure", title: "Measure", load: async () => (await import("./measure/measure-view.tsx")).MeasureView },
  { id: "findings", title: "Findings", load: async () => (await import("./findings/findings-view.tsx")).FindingsView },
  { id: "moves", title: "Moves", load: async () => (await import("./moves/moves-view.tsx")).MovesView },
  { id: "work", title: "Work", load: async () => (await import("./work/work-view.tsx")).WorkView },
  { id: "readings", title: "Readings", load: async () => (await import("./readings/readings-view.tsx")).ReadingsView },
  { id: "history", title: "History", load: async () => (await import("./history/history-view.tsx")).HistoryView },
  { id: "tools", title: "Tools", load: async () => (await import("./tools/tools-view.tsx")).ToolsView },
  {
    id: "description",
    title: "Machine",
    load: async () => (await import("./description/description-view.tsx")).DescriptionView,
  },
];
