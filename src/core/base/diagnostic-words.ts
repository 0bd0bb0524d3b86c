import { databasePhrases } from "./database-words.ts";
import { logbookPhrases } from "./logbook-words.ts";
import { readingPhrases } from "./reading-words.ts";
import { requestPhrases } from "./request-words.ts";
import { workPhrases } from "./work-words.ts";

/** What the user reads for one code: what is wrong, what was expected, what to do now. */
export interface DiagnosticWords {
  readonly what: string;
  readonly expected: string;
  readonly remedy: string;
}

type Data = Readonly<Record<string, string | number>>;
type Phrase = (data: Data) => DiagnosticWords;

/** The one table of words for bad input. Codes are stable: scripts and tests compare them. */
const phrases = {
  ...databasePhrases,
  ...logbookPhrases,
  ...readingPhrases,
  ...requestPhrases,
  ...workPhrases,
} satisfies Record<string, Phrase>;

export type DiagnosticCode = keyof typeof phrases;

export function wordsForDiagnostic(code: DiagnosticCode, data: Data): DiagnosticWords {
  const phrase: Phrase = phrases[code];
  return phrase(data);
}
