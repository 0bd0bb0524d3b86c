import type { Command, CommanderError } from "commander";
import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { nearestWord } from "../logbook/nearest-word.ts";

/** What is wrong with the words of a command, and how it is used. */
export function diagnosticForMisuse(
  { code, message }: CommanderError,
  program: Command,
  words: readonly string[],
): Diagnostic {
  const [command, path] = commandMeant(program, words);
  const named = /'([^']*)'/.exec(message)?.[1] ?? "";
  const verbs = command.commands.map((candidate) => candidate.name());
  const options = command.options.flatMap(({ long }) => (long ? [long] : []));
  const data = {
    reason: reasonFor(code, named, nearestWord(named, code === "commander.unknownCommand" ? verbs : options)),
    expected: verbs.length === 0 ? `${path} ${command.usage()}` : `one of: ${verbs.join(", ")}`,
    help: `${path} --help`,
  };
  return refusal("command-misused", {}, data);
}

/** The command that the first words name, and how it is called: some verbs have verbs of their own. */
function commandMeant(program: Command, words: readonly string[]): readonly [command: Command, path: string] {
  let [command, path] = [program, "kilter"];
  for (const word of words) {
    const next = command.commands.find((candidate) => candidate.name() === word);
    if (next === undefined) break;
    [command, path] = [next, `${path} ${word}`];
  }
  return [command, path];
}

function reasonFor(code: string, named: string, meant: string | null): string {
  const hint = meant === null ? "" : `; “${meant}” may be meant`;
  switch (code) {
    case "commander.unknownCommand":
      return `there is no command “${named}”${hint}`;
    case "commander.unknownOption":
      return `there is no option “${named}” here${hint}`;
    case "commander.missingArgument":
      return `<${named}> is missing`;
    case "commander.missingMandatoryOptionValue":
      return `the option ${named} is missing`;
    case "commander.optionMissingArgument":
      return `nothing stands behind the option ${named}`;
    case "commander.excessArguments":
      return "there are more words than this command takes";
    default:
      return "the command cannot be understood";
  }
}
