import { renderUnicodeCompact } from "uqr";
import { type Offer, pairingLink } from "../server/pairing.ts";
import type { RunningServer } from "../server/start-server.ts";
import { say, wrap } from "./terminal.ts";

/** The standard asks for four free squares around a code. */
const border = 4;

/** Where a device finds the server, and the code that lets it in. */
export function sayOffer(
  { sharedUnder, fingerprint }: Pick<RunningServer, "sharedUnder" | "fingerprint">,
  offer: Offer,
): void {
  const [first = ""] = sharedUnder;
  const until = new Date(offer.untilMs).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  const whom = offer.role === "owner" ? "an owner, who may do everything" : "a helper, who may read, measure and tick";
  say();
  say(`Pairing code: ${offer.code.slice(0, 4)}-${offer.code.slice(4)}`);
  say(wrap(`It lets in one device as ${whom}, once, until ${until}. Open the address there, or photograph this:`));
  say();
  say(squareCode(pairingLink(first, offer.code)));
  say();
  if (fingerprint !== null) {
    say(wrap("The browser will say that nobody vouches for the certificate. It is the right one if it shows this:"));
    const pairs = fingerprint.split(":");
    for (const half of [pairs.slice(0, 16), pairs.slice(16)]) say(`  ${half.join(":")}`);
    say();
  }
  say(wrap("For another code type helper or owner, and Enter."));
}

/** A square code that a camera can read, two rows of squares in one line of text, light on dark whatever the terminal. */
export function squareCode(text: string, isColoured = process.stdout.isTTY === true): string {
  const lines = renderUnicodeCompact(text, { border, ecc: "M" }).split("\n");
  return lines.map((line) => (isColoured ? `\u001b[97;40m${line}\u001b[0m` : line)).join("\n");
}
