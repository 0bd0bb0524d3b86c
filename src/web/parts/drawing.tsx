import { useLayoutEffect, useRef } from "preact/hooks";

/** A drawing that came as SVG text. It brings its own name and description; what moves sideways has a frame of its own. */
export function Drawing({ svg, name, frame = false }: { svg: string; name?: string; frame?: boolean }) {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (parsed.nodeName === "svg") box.current?.replaceChildren(document.importNode(parsed, true));
    else box.current?.replaceChildren();
  }, [svg]);
  if (!frame) return <div class="drawing" ref={box} />;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled must be reached by keys
    <section class="drawing framed" ref={box} aria-label={name ?? "Drawing"} tabIndex={0} />
  );
}
