import type { ComponentChildren } from "preact";
import { VerdictSymbol } from "./verdict.tsx";

export interface Feedback {
  /** "far" is an alert; everything else is said when there is time. */
  readonly tone: "good" | "far" | "plain" | "refused";
  /** Which station it is about. */
  readonly at: string;
  readonly strong: string;
  readonly rest: string;
  readonly second: string;
}

/** How the last reading sits with the rest. Its height is kept free, so that no key ever moves under a thumb. */
export function FeedbackLine({ feedback, children }: { feedback: Feedback | null; children?: ComponentChildren }) {
  const isAlert = feedback?.tone === "far" || feedback?.tone === "refused";
  const body = feedback && <FeedbackBody feedback={feedback} />;
  return (
    <div class="feedback">
      <div role="status">{!isAlert && body}</div>
      <div role="alert">{isAlert && body}</div>
      {children}
    </div>
  );
}

function FeedbackBody({ feedback: { tone, at, strong, rest, second } }: { feedback: Feedback }) {
  const colour = tone === "good" ? "within" : tone === "far" ? "out" : "";
  return (
    <p class="feedback-words">
      {tone === "good" && <VerdictSymbol verdict="within" />}
      {tone === "far" && <VerdictSymbol verdict="out" />}
      <span>
        {at !== "" && `${at}. `}
        <b class={colour}>{strong}</b>
        {rest}
        {second !== "" && (
          <>
            <br />
            <span class="second">{second}</span>
          </>
        )}
      </span>
    </p>
  );
}
