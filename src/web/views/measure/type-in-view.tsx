import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import { record } from "../../outbox/outbox.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { machineAddress } from "../../router.ts";
import type { CheckPage } from "../../worker/protocol.ts";
import { type KeptRun, KeptRuns } from "./kept-runs.tsx";
import { Cautions } from "./set-up-view.tsx";
import { queryFromChoice } from "./setup-query.ts";
import { SheetFields, SheetHeadFields, SheetTold } from "./sheet-fields.tsx";
import {
  clearSheet,
  emptyHead,
  forgetTrial,
  isDay,
  keptFrom,
  type SheetHead,
  type TypedSheet,
  trySheet,
  typedSheetOf,
  useCheckPage,
  useKept,
} from "./typed-sheet.ts";

interface TypeInProps {
  readonly machine: string;
  readonly check: string;
  readonly query: URLSearchParams;
}

/** A whole run at one go: from a sheet that was filled in at the machine, or as a table from somewhere else. */
export function TypeInView({ machine, check, query }: TypeInProps) {
  const held = useRef<TypedSheet | null>(null);
  held.current ??= typedSheetOf(machine, check);
  const sheet = held.current;
  useKept(sheet, machine, check);
  const head = useSignal<SheetHead>(emptyHead());
  const kept = useSignal<readonly KeptRun[]>([]);
  const answer = useCheckPage(machine, check, query, sheet);
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const { tried, pasted } = sheet;
  const back = machineAddress(machine, "measure", check) + queryFromChoice(page.chosen);

  async function keep() {
    if (tried.value === null) return;
    const run = keptFrom(page, sheet, tried.value);
    await record(machine, tried.value.events);
    clearSheet(sheet);
    kept.value = [run];
  }

  const [done] = kept.value;
  if (done) {
    const read = new Set(done.verdicts.map(({ station }) => station));
    const open = page.stations.find(({ key }) => !read.has(key));
    const run = machineAddress(machine, "measure", check, "run", done.run);
    return (
      <main class="type-in">
        <Heading words={`${page.title}: a whole run`} />
        <KeptRuns machine={machine} kept={kept} />
        <p class="button-row">
          {open && (
            <Link class="button act" to={`${run}?station=${encodeURIComponent(open.key)}`}>
              Go on with station {open.number}
            </Link>
          )}
          <Link class={open ? "button" : "button act"} to={machineAddress(machine, "findings")}>
            Findings
          </Link>
          <Link class="button" to={machineAddress(machine, "measure")}>
            All checks
          </Link>
        </p>
      </main>
    );
  }

  return (
    <main class="type-in">
      <Heading words={`${page.title}: a whole run`} />
      <p class="small second">
        {page.entry.instrument !== "" && `Read with ${page.entry.instrument}. `}
        <Link to={back}>Change how it is set up</Link>
      </p>
      <Cautions machine={machine} page={page} />
      <div class="type-in-columns">
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (isDay(head.value.date)) void trySheet(machine, page, sheet, head.value);
          }}
        >
          <SheetHeadFields head={head} onChanged={() => forgetTrial(sheet)} />
          <SheetFields page={page} sheet={sheet} />
          <SheetTold page={page} sheet={sheet} />
          <div class="button-row" role="status">
            {tried.value === null ? (
              <button type="submit" class="act">
                See how they sit
              </button>
            ) : (
              <>
                <button type="button" class="act" onClick={() => void keep()}>
                  Keep{" "}
                  {tried.value.verdicts.length === 1 ? "this reading" : `these ${tried.value.verdicts.length} readings`}
                </button>
                <span class="small second">Nothing is kept yet.</span>
              </>
            )}
          </div>
        </form>
        <PasteTable
          page={page}
          pasted={pasted.value}
          onText={(text, name) => {
            pasted.value = text;
            sheet.fileName.value = name;
            forgetTrial(sheet);
          }}
        />
      </div>
    </main>
  );
}

interface PasteProps {
  readonly page: CheckPage;
  readonly pasted: string;
  readonly onText: (text: string, name: string) => void;
}

function PasteTable({ page, pasted, onText }: PasteProps) {
  const example = page.stations
    .slice(0, 2)
    .map(
      ({ key }, i) =>
        `${key};${page.entry.kind === "leaves" ? "0.35/0.40" : page.entry.kind === "verdict" ? "yes" : `0.1${i}`}`,
    );
  const isOver = useSignal(false);
  const take = async (file: File | undefined) => {
    if (file) onText(await file.text(), file.name);
  };
  return (
    <section
      class={`paste${isOver.value ? " drop-here" : ""}`}
      aria-label="A table"
      onDragOver={(event) => {
        event.preventDefault();
        isOver.value = true;
      }}
      onDragLeave={() => {
        isOver.value = false;
      }}
      onDrop={(event) => {
        isOver.value = false;
        const file = event.dataTransfer?.files[0];
        // Text that is dragged goes into the field by itself.
        if (!file) return;
        event.preventDefault();
        void take(file);
      }}
    >
      <h2>Or as a table</h2>
      <p class="small">
        A line of names, then one reading a line: <b>station</b> and <b>reading</b>, and <b>unit</b> if it differs.
        Places of your own go into columns <b>x</b>, <b>y</b> and <b>z</b>, in mm of the machine. Comma, semicolon or
        tab between the columns.
      </p>
      <pre class="example">{["station;reading", ...example].join("\n")}</pre>
      <label class="form-field">
        <span>Paste it here</span>
        <textarea
          rows={8}
          spellcheck={false}
          value={pasted}
          onInput={(event) => onText(event.currentTarget.value, "pasted table")}
        />
      </label>
      <label class="button file-button">
        <input
          type="file"
          class="hide"
          accept=".csv,.tsv,.txt,text/csv"
          onChange={(event) => void take(event.currentTarget.files?.[0])}
        />
        Take a file, or drop one here
      </label>
      {pasted.trim() !== "" && <p class="note">The table is taken now, and not the form beside it.</p>}
    </section>
  );
}
