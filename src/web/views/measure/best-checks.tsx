import { Link } from "../../parts/link.tsx";
import { machineAddress } from "../../router.ts";
import { useAnswer } from "../../worker/use-answer.ts";

/** When both rounds are done: the check that gains most for its minutes, and those after it; or why none is worth it. */
export function BestChecks({ machine }: { machine: string }) {
  const answer = useAnswer("bestChecks", { machine }).value;
  if (answer && !answer.ok) return null;
  const [best, ...others] = answer?.value.checks ?? [];
  return (
    <section class="next-card" aria-labelledby="next-title" aria-busy={answer === null}>
      <p class="small second">
        Both rounds are done.
        {best && ` Of all checks this one gains most for its minutes: ${best.minutes}, with ${best.tools}.`}
      </p>
      <h2 id="next-title">{best?.title ?? "What to measure next"}</h2>
      {!answer && <p class="second">Working out which check gains most for its minutes.</p>}
      {answer?.value.words.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {best && (
        <>
          <p>{best.why}</p>
          <Link class="button act" to={`${machineAddress(machine)}/${best.path}`}>
            {best.button}
          </Link>
        </>
      )}
      {others.length > 0 && (
        <>
          <h3>After it</h3>
          <ul class="plain-list">
            {others.map(({ title, minutes, path, why }) => (
              <li key={path}>
                <Link to={`${machineAddress(machine)}/${path}`}>{title}</Link>{" "}
                <span class="small second">
                  {minutes} min. {why}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
