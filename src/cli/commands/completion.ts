import type { Command } from "commander";
import { refusal } from "../../core/base/diagnostic.ts";
import { BadInput } from "../report.ts";
import { say } from "../terminal.ts";

/** Completes the verbs, the options of a verb, and file names. */
export function printCompletion(program: Command, shell: string): number {
  const verbs = program.commands.map((command) => command.name());
  // A verb that has verbs of its own is completed by their names and all their options.
  const options = program.commands.map((command) => {
    const long = [command, ...command.commands].flatMap((one) => one.options.map((option) => option.long ?? ""));
    return [command.name(), [...command.commands.map((one) => one.name()), ...new Set(long.filter(Boolean))]] as const;
  });
  if (shell === "bash") {
    say("_kilter() {");
    say(`  local word=$\{COMP_WORDS[COMP_CWORD]}`);
    say(`  if [ "$COMP_CWORD" = 1 ]; then COMPREPLY=($(compgen -W "${verbs.join(" ")}" -- "$word")); return; fi`);
    say(`  case "$\{COMP_WORDS[1]}" in`);
    for (const [name, list] of options)
      say(`    ${name}) COMPREPLY=($(compgen -W "${list.join(" ")}" -f -- "$word"));;`);
    say("  esac\n}\ncomplete -o filenames -F _kilter kilter");
  } else if (shell === "zsh") {
    say(`#compdef kilter\n_arguments '1:verb:(${verbs.join(" ")})' '*:file:_files'`);
  } else if (shell === "fish") {
    for (const command of program.commands)
      say(
        `complete -c kilter -n __fish_use_subcommand -a ${command.name()} -d '${command.description().replaceAll("'", "’")}'`,
      );
    for (const [name, list] of options)
      for (const option of list)
        say(
          `complete -c kilter -n '__fish_seen_subcommand_from ${name}' ${option.replace(/^(?!--)/, "-a ").replace(/^--/, "-l ")}`,
        );
  } else
    throw new BadInput([
      refusal("word-unknown", {}, { word: shell, of: "a shell", listed: "bash, zsh, fish", meant: "" }),
    ]);
  return 0;
}
