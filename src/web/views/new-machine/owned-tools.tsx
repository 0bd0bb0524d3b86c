import { useAnswer } from "../../worker/use-answer.ts";

/** What most builders have; anything can be added later. */
export const usuallyOwned: readonly string[] = [
  "instrument feeler-leaves",
  "instrument calipers-150",
  "instrument steel-rule-with-loupe",
  "instrument tape-class-2",
  "instrument line-by-eye-with-loupe",
  "object square",
  "object block",
];

interface OwnedToolsProps {
  readonly owned: ReadonlySet<string>;
  readonly onChange: (owned: ReadonlySet<string>) => void;
}

/** Which tools and objects the user has: the checks that need them are then ready to be taken. */
export function OwnedTools({ owned, onChange }: OwnedToolsProps) {
  const answer = useAnswer("tools", { machine: null }).value;
  if (!answer?.ok) return null;
  const { instrumentKinds, objectKinds } = answer.value;
  const kinds = [
    ...instrumentKinds.map((kind) => ["instrument", kind] as const),
    ...objectKinds.map((kind) => ["object", kind] as const),
  ];
  const change = (key: string, isOwned: boolean) => {
    const next = new Set(owned);
    if (isOwned) next.add(key);
    else next.delete(key);
    onChange(next);
  };
  return (
    <fieldset>
      <legend class="hide">What you measure with</legend>
      <p class="note">Ticked is what most workshops have. Figures and certificates can be added later, under Tools.</p>
      <div class="ticks">
        {kinds.map(([what, { id, name }]) => (
          <label class="tick" key={`${what} ${id}`}>
            <input
              type="checkbox"
              checked={owned.has(`${what} ${id}`)}
              onChange={(event) => change(`${what} ${id}`, event.currentTarget.checked)}
            />
            <span>{name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
