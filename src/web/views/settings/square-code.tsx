import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type SquarePath, squarePath } from "./square-path.ts";

/** A text as a square code for a camera, dark on light whatever the theme. */
export function SquareCode({ text, name }: { text: string; name: string }) {
  const drawn = useSignal<SquarePath | null>(null);
  useEffect(() => {
    let isStale = false;
    // Nobody needs it in the first view.
    void import("uqr").then(({ encode }) => {
      if (!isStale) drawn.value = squarePath(encode(text, { border: 4, ecc: "M" }).data);
    });
    return () => {
      isStale = true;
    };
  }, [text, drawn]);
  if (drawn.value === null) return null;
  const { size, path } = drawn.value;
  return (
    <svg class="square-code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={name} shape-rendering="crispEdges">
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}
