import { useLayoutEffect, useRef } from "preact/hooks";
import { moves } from "../router.ts";

let answered = 0;

/** True once after each move by hand: whoever asks first takes the focus. */
export function takesFocus(): boolean {
  if (answered === moves.peek()) return false;
  answered = moves.peek();
  return true;
}

/** The heading of a view. It names the document, and takes the focus when the view was gone to. */
export function Heading({ words, of, hidden = false }: { words: string; of?: string; hidden?: boolean }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const title = of === undefined ? words : `${words}: ${of}`;
  useLayoutEffect(() => {
    document.title = `${title} – Kilter`;
  }, [title]);
  useLayoutEffect(() => {
    if (!takesFocus()) return;
    scrollTo(0, 0);
    heading.current?.focus({ preventScroll: true });
  }, []);
  return (
    <h1 ref={heading} tabIndex={-1} class={hidden ? "hide" : undefined}>
      {words}
    </h1>
  );
}
