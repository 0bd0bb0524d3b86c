import { record } from "../../outbox/outbox.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { Choice, PlainNumber, Select, TextField } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences, preferredUnit } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { CheckPage, Draft, SetupChoice, UnfinishedRun } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { choiceFromQuery, queryFromChoice } from "./setup-query.ts";

interface SetUpProps {
  readonly machine: string;
  readonly check: string;
  readonly query: URLSearchParams;
}

/** How a check is done: cautions first, then what is chosen, the picture and the steps. */
export function SetUpView({ machine, check, query }: SetUpProps) {
  const asked = choiceFromQuery(check, query);
  const answer = useAnswer("check", { machine, choice: asked, unit: preferredUnit() }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const base = machineAddress(machine, "measure", check);
  const choose = (some: Partial<SetupChoice>) => goTo(base + queryFromChoice({ ...asked, ...some }), "replace");
  const here = queryFromChoice({ ...page.chosen, objects: { ...asked.objects, ...page.chosen.objects } });
  const lacksTool = page.families.length > 0 && page.chosen.instrument === null;
  return (
    <main class="set-up">
      <Heading words={page.title} />
      <p class="headline">{page.settles}</p>
      <p class="small second">
        {page.minutes} minutes, {page.stations.length === 1 ? "one station" : `${page.stations.length} stations`}. It
        can be done from this stage of building on: {page.stage}.
      </p>
      <Cautions machine={machine} page={page} />
      <ToldList told={answer.told} />
      <div class="set-up-columns">
        <div class="set-up-picture">
          <div class="on-wide">
            <Drawing svg={page.wide} frame name="Where and how it is read" />
          </div>
          <div class="on-narrow">
            <Drawing svg={page.narrow} />
          </div>
          {page.marks.length > 0 && (
            <p class="small marks">
              <b>The marks:</b> {page.marks.join("; ")}.
            </p>
          )}
          <StationTable page={page} />
        </div>
        <div class="set-up-words">
          <Choices machine={machine} page={page} asked={asked} choose={choose} />
          <section>
            <h2>At hand</h2>
            <ul class="dash-list">
              {page.toolsAtHand.map((tool) => (
                <li key={tool}>{tool}</li>
              ))}
            </ul>
          </section>
          <section>
            <h2>Step by step</h2>
            <ol class="steps">
              {page.steps.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          </section>
          {lacksTool ? (
            <p>Before anything can be read, choose or add the tool it is read with.</p>
          ) : (
            <Start page={page} base={base} here={here} />
          )}
          <p class="start">
            {!lacksTool && (
              <Link class="button" to={`${base}/type${here}`}>
                Type a whole run in
              </Link>
            )}
            <Link class="button" to={`${base}/blank${here}`}>
              Print a sheet
            </Link>
          </p>
          <section>
            <h2>What counts as plus</h2>
            <p>{page.sign}</p>
          </section>
          <section>
            <h2>What goes wrong</h2>
            <ul class="dash-list">
              {page.goesWrong.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
          <section>
            <h2>What is usual</h2>
            <p>{page.typical}</p>
          </section>
          <details>
            <summary>What holds for every check</summary>
            {page.standing.map(({ title, sentences }) => (
              <section key={title}>
                <h3>{title}</h3>
                <p class="small">{sentences.join(" ")}</p>
              </section>
            ))}
          </details>
        </div>
      </div>
    </main>
  );
}

export function Cautions({ machine, page }: { machine: string; page: Pick<CheckPage, "cautions"> }) {
  if (page.cautions.length === 0) return null;
  return (
    <section class="cautions" aria-label="Cautions">
      {page.cautions.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p class="note">
        What the makers state comes first.{" "}
        <Link to={machineAddress(machine, "measure")}>What these words do not do</Link>
      </p>
    </section>
  );
}

/** Where it begins, or where it goes on that was broken off. */
function Start({ page: { unfinished }, base, here }: { page: CheckPage; base: string; here: string }) {
  if (unfinished === null) {
    return (
      <p class="start-main">
        <Link class="button act" to={`${base}/take${here}`}>
          Start with station 1
        </Link>
      </p>
    );
  }
  return (
    <>
      <p>{keptOf(unfinished)}</p>
      <p class="start-main">
        <Link class="button act" to={`${base}/run/${unfinished.run}`}>
          Go on with station {unfinished.next}
        </Link>
      </p>
      <p>
        <Link class="button" to={`${base}/take${here}`}>
          Begin anew with station 1
        </Link>
      </p>
    </>
  );
}

/** What of a run that was broken off is there. */
export function keptOf({ read, of }: UnfinishedRun): string {
  return `${read} of ${of} stations ${read === 1 ? "is" : "are"} read and kept.`;
}

function StationTable({ page }: { page: CheckPage }) {
  const hasPlace = page.stations.some(({ place }) => place !== "");
  const hasNominal = page.stations.some(({ nominal }) => nominal !== "");
  return (
    <table class="stations">
      <caption class="hide">Stations</caption>
      <thead>
        <tr>
          <th scope="col">no</th>
          <th scope="col">station</th>
          {hasPlace && <th scope="col">where</th>}
          {hasNominal && (
            <th scope="col" class="num">
              reads
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {page.stations.map(({ number, key, words, place, nominal }) => (
          <tr key={key}>
            <td class="strong">{number}</td>
            <th scope="row">{words}</th>
            {hasPlace && <td class="second">{place}</td>}
            {hasNominal && <td class="num">{nominal}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface ChoicesProps {
  readonly machine: string;
  readonly page: CheckPage;
  readonly asked: Partial<SetupChoice>;
  readonly choose: (some: Partial<SetupChoice>) => void;
}

function Choices({ machine, page, asked, choose }: ChoicesProps) {
  const condition = (name: string) => String(asked.conditions?.[name] ?? "");
  const setCondition = (name: string, value: string | number | null) =>
    choose({ conditions: { ...asked.conditions, [name]: value ?? "" } });
  return (
    <section class="choices">
      <h2>How you do it</h2>
      {page.families.length > 0 && <InstrumentChoice machine={machine} page={page} choose={choose} />}
      {page.roles.map((role) => (
        <ObjectChoice key={role.role} machine={machine} role={role} page={page} asked={asked} choose={choose} />
      ))}
      {page.questions.map(({ key, question, answers, number, chosen }) =>
        answers !== null ? (
          <Choice
            key={key}
            label={question}
            value={String(chosen)}
            answers={answers.map((answer) => [answer, answer] as const)}
            onChoose={(answer) => choose({ options: { ...asked.options, [key]: answer } })}
          />
        ) : (
          number && (
            <PlainNumber
              key={key}
              label={question}
              range={number}
              start={String(asked.options?.[key] ?? chosen)}
              onNumber={(value) => {
                if (value !== null) choose({ options: { ...asked.options, [key]: value } });
              }}
            />
          )
        ),
      )}
      <details>
        <summary>Noted with the run: temperature, hose, where the carriage is parked</summary>
        <PlainNumber
          label="Temperature"
          range={{ unit: "°C", from: -40, to: 80 }}
          optional
          start={condition("temperatureC")}
          onNumber={(value) => setCondition("temperatureC", value)}
        />
        <PlainNumber
          label="Humidity"
          range={{ unit: "%", from: 0, to: 100 }}
          optional
          start={condition("humidityPercent")}
          onNumber={(value) => setCondition("humidityPercent", value)}
        />
        <PlainNumber
          label="Carriage parked at X"
          range={{ unit: "mm", from: -5000, to: 5000 }}
          optional
          start={condition("carriageParkedMm")}
          onNumber={(value) => setCondition("carriageParkedMm", value)}
        />
        <Choice
          label="Hose and cables"
          value={condition("hose")}
          answers={[
            ["", "not said"],
            ["on", "on"],
            ["off", "off"],
          ]}
          onChoose={(hose) => setCondition("hose", hose)}
        />
        <TextField
          label="Note"
          hint="Whatever somebody would want to know a year from now."
          most={400}
          text={condition("note")}
          onText={(text) => setCondition("note", text)}
        />
      </details>
    </section>
  );
}

function InstrumentChoice({ machine, page, choose }: Omit<ChoicesProps, "asked">) {
  const tools = [...page.instruments, ...page.unusualInstruments];
  return (
    <>
      {tools.length > 0 && (
        <Select
          label="Read with"
          value={page.chosen.instrument ?? ""}
          answers={[
            ...(page.chosen.instrument === null ? [["", "choose one"] as const] : []),
            ...tools.map(
              ({ id, name }) =>
                [id, page.unusualInstruments.some((tool) => tool.id === id) ? `${name} (unusual here)` : name] as const,
            ),
          ]}
          onChoose={(instrument) => choose({ instrument: instrument === "" ? null : instrument })}
        />
      )}
      {page.instruments.length === 0 && (
        <div class="add-here">
          <p class="small">Usual here: {listed(page.families)}. You have not said that you have one; add yours:</p>
          <div class="button-row">
            {page.kindsToAdd.map(({ id, name }) => (
              <button
                type="button"
                key={id}
                onClick={async () => {
                  if (await add(machine, { kind: "instrument-added", instrument: { id, kind: id } } as Draft))
                    choose({ instrument: id });
                }}
              >
                {name}
              </button>
            ))}
          </div>
        </div>
      )}
    </>
  );
}

function ObjectChoice({
  machine,
  role,
  page,
  asked,
  choose,
}: ChoicesProps & { readonly role: CheckPage["roles"][number] }) {
  if (role.objects.length === 0) {
    return (
      <div class="add-here">
        <p class="small">
          It leans on a {role.role}. None of yours is here yet; what is known of it is then remembered from run to run:
        </p>
        <div class="button-row">
          {role.kinds.map(({ id, name }) => (
            <button
              type="button"
              key={id}
              onClick={async () => {
                if (await add(machine, { kind: "object-added", object: { id, kind: id } } as Draft))
                  choose({ objects: { ...asked.objects, [role.role]: id } });
              }}
            >
              {name}
            </button>
          ))}
        </div>
      </div>
    );
  }
  return (
    <Select
      label={`Which ${role.role}?`}
      value={page.chosen.objects[role.role] ?? ""}
      answers={[...role.objects.map(({ id, name }) => [id, name] as const), ["", "another one, not listed"] as const]}
      onChoose={(object) => choose({ objects: { ...asked.objects, [role.role]: object } })}
    />
  );
}

async function add(machine: string, draft: Draft): Promise<boolean> {
  const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
  if (answer.ok) await record(machine, answer.value);
  return answer.ok;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}
