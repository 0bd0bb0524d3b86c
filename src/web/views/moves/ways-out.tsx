import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { TextField } from "../../parts/fields.tsx";
import { Link } from "../../parts/link.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Told } from "../../worker/protocol.ts";
import type { AdjusterPage, WhatIf } from "../../worker/protocol-moves.ts";
import { queryFromWhatIf } from "./what-if.ts";
import { write } from "./write.ts";

/** A move that is not made: because it must not be, or because it cannot be. */
export type WayOut = "lock" | "cannot";

interface WaysOutProps {
  readonly machine: string;
  readonly page: AdjusterPage;
  /** What is tried stays tried when something is written down beside it. */
  readonly what: WhatIf;
  readonly wayOut: WayOut;
  readonly onClose: () => void;
}

const reasons = ["It is glued or pinned.", "It was set with care and stays.", "Something else hangs on it."] as const;

/** What is said instead of "done"; the plan then finds another way. All of it can be taken back. */
export function WaysOut(props: WaysOutProps) {
  const { page, wayOut } = props;
  if (wayOut === "lock") return page.place.locked === null ? <LockIt {...props} /> : <UnlockIt {...props} />;
  return page.place.available ? <CannotDoIt {...props} /> : <IsThere {...props} />;
}

function LockIt({ machine, page, what, onClose }: WaysOutProps) {
  const because = useSignal("");
  const told = useSignal<readonly Told[]>([]);
  const lock = async (reason: string) => {
    told.value = await write(machine, { kind: "adjuster-locked", adjuster: page.place.id, because: reason });
    if (told.value.length === 0) goTo(machineAddress(machine, "moves") + queryFromWhatIf(what));
  };
  return (
    <section class="held-back way-out">
      <h2>Keep it as it is: no plan moves it until it is freed</h2>
      <div class="button-row">
        {reasons.map((reason) => (
          <button type="button" key={reason} onClick={() => void lock(reason)}>
            {reason.replace(/\.$/, "")}
          </button>
        ))}
      </div>
      <TextField
        label="Or in your words"
        text={because.value}
        most={200}
        onText={(text) => {
          because.value = text;
        }}
      />
      <ToldList told={told.value} />
      <div class="button-row">
        <button type="button" disabled={because.value.trim() === ""} onClick={() => void lock(because.value.trim())}>
          Keep it as it is
        </button>
        <button type="button" class="plain" onClick={onClose}>
          Leave it free
        </button>
      </div>
    </section>
  );
}

function UnlockIt({ machine, page, onClose }: WaysOutProps) {
  const told = useSignal<readonly Told[]>([]);
  return (
    <section class="held-back way-out">
      <h2>Free it again</h2>
      <p>Kept as it is: {page.place.locked}</p>
      <ToldList told={told.value} />
      <div class="button-row">
        <button
          type="button"
          onClick={async () => {
            told.value = await write(machine, { kind: "adjuster-unlocked", adjuster: page.place.id });
            if (told.value.length === 0) onClose();
          }}
        >
          Free it
        </button>
        <button type="button" class="plain" onClick={onClose}>
          Keep it as it is
        </button>
      </div>
    </section>
  );
}

function CannotDoIt({ machine, page, what, onClose }: WaysOutProps) {
  const told = useSignal<readonly Told[]>([]);
  const change = async (figures: Parameters<typeof changeAdjuster>[2]) => {
    told.value = await changeAdjuster(machine, page.place.id, figures);
    if (told.value.length === 0) goTo(machineAddress(machine, "moves") + queryFromWhatIf(what));
  };
  return (
    <section class="held-back way-out">
      <h2>What is in the way?</h2>
      <ul class="way-list">
        <li>
          <Link
            class="button"
            to={
              machineAddress(machine, "moves") +
              queryFromWhatIf({ ...what, locks: [...(what.locks ?? []), page.place.id] })
            }
          >
            Not today
          </Link>
          <span class="small">Shows the plan without it, and writes nothing down.</span>
        </li>
        <li>
          <button type="button" onClick={() => void change({ available: false })}>
            Nobody gets at it
          </button>
          <span class="small">Or there is no such place. No plan asks for it again.</span>
        </li>
        {page.asks.kind === "leaves" && (
          <li>
            <Link class="button" to={machineAddress(machine, "moves", "stock")}>
              I have no such leaves
            </Link>
            <span class="small">Say which there are: the plan packs with those.</span>
          </li>
        )}
        {(page.asks.kind === "way" || page.asks.kind === "leaves") && (
          <li>
            <Reach page={page} onReach={(figures) => void change(figures)} />
          </li>
        )}
      </ul>
      <ToldList told={told.value} />
      <button type="button" class="plain" onClick={onClose}>
        It can be done after all
      </button>
    </section>
  );
}

/** How far it goes from where it stands, in each direction. */
function Reach({
  page: { asks },
  onReach,
}: {
  page: AdjusterPage;
  onReach: (figures: { readonly plus: string; readonly minus: string }) => void;
}) {
  const plus = useSignal("");
  const minus = useSignal("");
  const [more, less] = asks.kind === "way" ? [asks.plus, asks.minus] : ["thicker", "thinner"];
  return (
    <details>
      <summary>It does not go that far</summary>
      <div class="field-pair">
        <TextField
          label={`From where it stands, ${more}, mm`}
          text={plus.value}
          most={12}
          onText={(text) => {
            plus.value = text;
          }}
        />
        <TextField
          label={`From where it stands, ${less}, mm`}
          text={minus.value}
          most={12}
          onText={(text) => {
            minus.value = text;
          }}
        />
      </div>
      <button
        type="button"
        disabled={plus.value.trim() === "" || minus.value.trim() === ""}
        onClick={() => onReach({ plus: plus.value, minus: minus.value })}
      >
        That is how far it goes
      </button>
    </details>
  );
}

function IsThere({ machine, page, onClose }: WaysOutProps) {
  const told = useSignal<readonly Told[]>([]);
  return (
    <section class="held-back way-out">
      <h2>It is there after all</h2>
      <ToldList told={told.value} />
      <div class="button-row">
        <button
          type="button"
          onClick={async () => {
            told.value = await changeAdjuster(machine, page.place.id, { available: true });
            if (told.value.length === 0) onClose();
          }}
        >
          Plans may move it
        </button>
        <button type="button" class="plain" onClick={onClose}>
          Leave it out
        </button>
      </div>
    </section>
  );
}

async function changeAdjuster(
  machine: string,
  adjuster: string,
  figures: { readonly plus: string; readonly minus: string } | { readonly available: boolean },
): Promise<readonly Told[]> {
  const answer = await ask("changeAdjuster", { machine, adjuster, figures, by: preferences.value.by });
  if (!answer.ok) return answer.told;
  await record(machine, answer.value);
  return [];
}
