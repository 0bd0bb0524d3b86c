import type { ComponentChildren } from "preact";

interface JumpProps {
  /** The id of what is jumped to, on the view that is shown; it must be able to take the focus. */
  readonly to: string;
  readonly children: ComponentChildren;
}

/** To a place further down on the same view. The address stays: a way back leads to the view before, not up the page. */
export function Jump({ to, children }: JumpProps) {
  return (
    <a
      href={`#${to}`}
      onClick={(event) => {
        event.preventDefault();
        const target = document.getElementById(to);
        target?.focus({ preventScroll: true });
        target?.scrollIntoView();
      }}
    >
      {children}
    </a>
  );
}
