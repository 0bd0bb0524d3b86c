import type { Command, CommanderError } from "commander";
import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { nearestWord } from "../logbook/nearest-word.ts";

/** What is wrong with the words of a command, and how it is used. */
export function diagnosticForMisuse(
  { code, message }: CommanderError,
  program: Command,
  words: readonly string[],
): Diagnostic {
  const command = program.commands.find((candidate) => candidate.name() === words[0]);
  const named = /'([^']*)'/.exec(message)?.[1] ?? "";
  const verbs = program.commands.map((candidate) => candidate.name());
  const options = (command ?? program).options.flatMap(({ long }) => (long ? [long] : []));
  const data = {
    reason: reasonFor(code, named, nearestWord(named, code === "commander.unknownCommand" ? verbs : options)),
    expected: command ? `kilter ${command.name()} ${command.usage()}` : `one of: ${verbs.join(", ")}`,
    help: command ? `kilter ${command.name()} --help` : "kilter --help",
  };
  return refusal("command-misused", {}, data);
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
