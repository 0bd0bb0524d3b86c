import { connection } from "../live/connection.ts";
import { complete } from "../live/feed.ts";

/** Stands where an answer has not come yet. Most come at once, so it shows itself only after a moment. */
export function Waiting() {
  return (
    <p class="waiting second" role="status">
      {complete.value || connection.value !== "away"
        ? "Working it out."
        : "The server cannot be reached, and this is not on the page yet."}
    </p>
  );
}
