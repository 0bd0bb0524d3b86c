import type { ComponentChildren } from "preact";
import { goTo } from "../router.ts";

interface LinkProps {
  readonly to: string;
  readonly class?: string;
  readonly current?: boolean;
  readonly label?: string;
  readonly children: ComponentChildren;
}

/** A link to an address of the page; opened in another tab it is an ordinary link. */
export function Link({ to, class: className, current = false, label, children }: LinkProps) {
  return (
    <a
      href={to}
      class={className}
      aria-current={current ? "page" : undefined}
      aria-label={label}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey || event.button !== 0) return;
        event.preventDefault();
        goTo(to);
      }}
    >
      {children}
    </a>
  );
}
