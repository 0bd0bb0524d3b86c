import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { Waiting } from "./waiting.tsx";

type View<Props> = (props: Props) => ComponentChildren;
export type Loads<Props> = () => Promise<View<Props>>;

/** Views that have been fetched stand there at once when they are gone to again. */
const fetched = new Map<Loads<never>, View<never>>();

/** A view whose script is fetched when it is first gone to. */
export function Loaded<Props>({ of, props }: { of: Loads<Props>; props: Props }) {
  const view = useSignal<{ readonly show: View<Props> } | null>(null);
  const failed = useSignal(false);
  useEffect(() => {
    of().then(
      (show) => {
        fetched.set(of, show);
        view.value = { show };
      },
      () => {
        failed.value = true;
      },
    );
  }, [of]);
  const Show = view.value?.show ?? (fetched.get(of) as View<Props> | undefined);
  if (Show) return <Show {...(props as Props & object)} />;
  return (
    <main class="narrow">
      {failed.value ? (
        <p role="alert">
          This part of the page has not been fetched, and the server is not reached. Nothing is lost; try again when it
          is there.
        </p>
      ) : (
        <Waiting />
      )}
    </main>
  );
}
