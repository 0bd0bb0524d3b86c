import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { Select, TextField } from "../../parts/fields.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, Told } from "../../worker/protocol.ts";

const kinds = [
  ["homed", "It was homed"],
  ["powered-on", "It was switched on"],
  ["knocked", "It was knocked"],
  ["transported", "It was carried somewhere else"],
  ["part-replaced", "A part was replaced"],
  ["skimmed", "The bed was skimmed"],
  ["note-added", "Only a note"],
] as const;

type Kind = (typeof kinds)[number][0];

const effects: Readonly<Record<Kind, string>> = {
  homed: "What homing sets is then open again; everything else stands.",
  "powered-on": "It counts like a homing where the machine squares itself.",
  knocked: "Readings from before still count, but not for what may have shifted.",
  transported: "Every joint may have shifted a little.",
  "part-replaced": "What was known of these parts is gone.",
  skimmed: "The bed is then as the cutter left it.",
  "note-added": "It changes nothing.",
};

/** Something happened to the machine between readings: it is noted, and the fit takes it into account. */
export function NoteHappening({ machine, members }: { machine: string; members: readonly string[] }) {
  const kind = useSignal<Kind>("homed");
  const chosen = useSignal<ReadonlySet<string>>(new Set());
  const note = useSignal("");
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal("");
  const asksMembers = kind.value === "knocked" || kind.value === "part-replaced";
  const asksNote = !["homed", "powered-on"].includes(kind.value);

  async function save() {
    const text = note.value.trim();
    const draft =
      kind.value === "note-added"
        ? { kind: "note-added", text }
        : {
            kind: kind.value,
            ...(asksMembers &&
              (chosen.value.size > 0 || kind.value === "part-replaced") && { members: [...chosen.value] }),
            ...(asksNote && text !== "" && { note: text }),
          };
    const answer = await ask("propose", { machine, drafts: [draft as Draft], by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    await record(machine, answer.value);
    said.value = "It is noted.";
    note.value = "";
    chosen.value = new Set();
  }

  const isWhole =
    kind.value === "note-added" ? note.value.trim() !== "" : kind.value !== "part-replaced" || chosen.value.size > 0;
  return (
    <section class="note-happening not-printed">
      <h2>Something happened</h2>
      <Select
        label="What"
        value={kind.value}
        answers={kinds}
        hint={effects[kind.value]}
        onChoose={(next) => {
          kind.value = next;
          said.value = "";
        }}
      />
      {asksMembers && (
        <fieldset>
          <legend>{kind.value === "knocked" ? "Where, if you know" : "Which parts"}</legend>
          <div class="ticks">
            {members.map((member) => (
              <label class="tick" key={member}>
                <input
                  type="checkbox"
                  checked={chosen.value.has(member)}
                  onChange={(event) => {
                    const next = new Set(chosen.value);
                    if (event.currentTarget.checked) next.add(member);
                    else next.delete(member);
                    chosen.value = next;
                  }}
                />
                <span>{member}</span>
              </label>
            ))}
          </div>
        </fieldset>
      )}
      {asksNote && (
        <TextField
          label="In your words"
          most={500}
          text={note.value}
          onText={(text) => {
            note.value = text;
          }}
        />
      )}
      <ToldList told={told.value} />
      <div class="button-row" role="status">
        <button type="button" disabled={!isWhole} onClick={() => void save()}>
          Note it
        </button>
        <span class="small">{said.value}</span>
      </div>
    </section>
  );
}
