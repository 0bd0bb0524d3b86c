/** A station's number: hollow until it is read, filled when it has been, in the accent when it is read now. */
export function StationRing({ number, state }: { number: number; state: "open" | "read" | "now" }) {
  return <span class={`ring ${state}`}>{number}</span>;
}
