import { Command } from "commander";
import { refusal } from "../core/base/diagnostic.ts";
import { dataFolder } from "../store/data-folder.ts";
import { diagnosticForMisuse } from "./misuse.ts";
import { BadInput, exitStatus, writeDiagnostic } from "./report.ts";
import { reasonOf } from "./system-reason.ts";

const version = "0.1.0";

/** Commands load their own code, so that asking for help costs nothing. */
type Run = () => Promise<number>;

const program = new Command("kilter")
  .description("Finds out how true a small gantry router stands, from readings taken at it.")
  .version(version)
  // What is wrong with a command is said in the same form as everything else that is wrong.
  .configureOutput({ outputError: () => {} })
  .configureHelp({
    helpWidth: Math.min(100, process.stdout.columns ?? 80),
    minWidthToWrap: 20,
    subcommandTerm: (command) => command.name(),
  });

// Before the verbs are made: each takes this over from the program.
program.exitOverride((error) => {
  // Wrong use is status 2; asking for help or the version is not wrong, and without a word the help is the answer.
  if (error.exitCode === 0) process.exit(exitStatus.done);
  if (error.code !== "commander.help") writeDiagnostic(diagnosticForMisuse(error, program, process.argv.slice(2)));
  process.exit(exitStatus.badInput);
});

const collect = (value: string, before: string[] = []): string[] => [...before, value];

program
  .command("demonstration")
  .description("run the whole job on the machine that comes with the program")
  .option("--to <folder>", "folder for the drawings and the sheet", "kilter-demonstration")
  .addHelpText("after", "\nExample: kilter demonstration --to demo")
  .action((options) => finish(async () => (await import("./commands/demonstration.ts")).demonstrate(options)));

program
  .command("create <file>")
  .description("begin a machine's logbook")
  .requiredOption("--name <name>", "what you call the machine")
  .requiredOption("--travel <x×y×z>", "working travel in mm, as 600x500x70")
  .option("--layout <layout>", "moving-gantry or fixed-bridge", "moving-gantry")
  .option(
    "--rails <left×right>",
    "x of the rail planes (of the columns on a fixed bridge), mm from the travel's left end",
  )
  .option("--wheelbase <mm>", "distance of a side's two feet along Y")
  .option("--beam-height <mm>", "height of the beam's centre over the bed")
  .option("--tool-from-beam <mm>", "the tool relative to the beam's centre along Y, negative to the front")
  .option("--drives <x,y,z>", "belt or screw for each axis, as belt,belt,screw")
  .option("--y-motors <n>", "motors that move the beam along Y, 1 or 2")
  .option("--set <key=value>", "any other dimension, as railContactMm=-25", collect)
  .option("--tool <kind>", "a tool or object you own, by its kind; may be given again", collect)
  .option("--by <who>", "who writes this")
  .addHelpText(
    "after",
    "\nExample: kilter create router.jsonl --name Router --travel 600x500x70 \\\n           --tool feeler-leaves --tool square\n`kilter tools` lists the kinds of tools.",
  )
  .action((file, options) =>
    finish(async () => (await import("./commands/create.ts")).createLogbook(file, options as never)),
  );

program
  .command("inspect <file>")
  .description("read a logbook from end to end and say what it holds, or what is wrong with it")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter inspect router.jsonl")
  .action((file, options) => finish(async () => (await import("./commands/inspect.ts")).inspectLogbook(file, options)));

program
  .command("checks [file]")
  .description("list the checks: the short round, or all of them")
  .option("--all", "every check of this machine")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter checks router.jsonl --all")
  .action((file, options) => finish(async () => (await import("./commands/checks.ts")).listChecks(file, options)));

program
  .command("check <check> [file]")
  .description("show one check: set-up, stations of your machine, sign, cautions")
  .option("--set <key=value>", "how it is set up, as axis=Y", collect)
  .option("--with <tool>", "the instrument it is read with")
  .option("--drawing <file.svg>", "write its drawing")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter check gap-under-beam router.jsonl --drawing gap.svg")
  .action((check, file, options) =>
    finish(async () => (await import("./commands/check.ts")).showCheck(check, file, options)),
  );

program
  .command("tools [file]")
  .description("list your instruments and objects, and what the readings say of them; without a file, all kinds")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter tools router.jsonl")
  .action((file, options) => finish(async () => (await import("./commands/tools.ts")).listTools(file, options)));

program
  .command("tool <file> <kind>")
  .description("add an instrument or an object you own")
  .option("--id <id>", "what you call it in commands")
  .option("--name <name>", "what you call it")
  .option("--serial <mark>", "mark or number on it")
  .option("--leaves <list>", 'the leaves of your set, as "0.03 0.05 0.10" or "1.5 2 3 thou"')
  .option("--stack <count>", "how many leaves of the set may lie on one another")
  .option("--set <figure=value>", "a figure of your own, as settingMm=0.03 or heightMm=97.98±0.02", collect)
  .option("--by <who>", "who writes this")
  .addHelpText(
    "after",
    '\nAdded again under the same --id, a tool is corrected.\n\nExample: kilter tool router.jsonl block --id oak --set heightMm=72.50±0.04\n         kilter tool router.jsonl feeler-leaves --leaves "0.03 0.05 0.1 0.2"',
  )
  .action((file, kind, options) =>
    finish(async () => (await import("./commands/tools.ts")).addTool(file, kind, options)),
  );

program
  .command("put-away <file> <tool>")
  .description("put away an instrument or an object that is not used any more; what was read with it counts")
  .option("--because <reason>", "why")
  .option("--back", "take it out again")
  .option("--by <who>", "who writes this")
  .addHelpText("after", '\nExample: kilter put-away router.jsonl rule-1 --because "its end is worn"')
  .action((file, tool, options) =>
    finish(async () => (await import("./commands/tools.ts")).putToolAway(file, tool, options)),
  );

program
  .command("read <file> <check> [readings...]")
  .description("add the readings of one run, in the order of the stations or as station=reading")
  .option("--with <tool>", "the instrument they were read with")
  .option("--object <role=id>", "an object the check leans on, as square=my-square", collect)
  .option("--set <key=value>", 'how the check was set up, as stem="left or front"', collect)
  .option("--csv <file>", "readings as a table; - reads standard input")
  .option("--unit <unit>", "unit of readings that name none: mm, in, thou, mm/m …")
  .option("--parked <mm>", "where the carriage was parked")
  .option("--hose <on|off>", "whether hose and cable hung on it")
  .option("--temperature <°C>", "of the room")
  .option("--humidity <%>", "of the room")
  .option("--note <text>", "anything worth remembering")
  .option("--at <time>", "when they were taken, if not now")
  .option("--by <who>", "who took them")
  .option("--try", "judge the readings without writing them")
  .option("--json", "for machines")
  .addHelpText(
    "after",
    "\nA leaf that goes and the next that does not: 0.35/0.40.\nTwo gaps or lengths of one station: 0.40:0. A station left out: -\n\nExample: kilter read router.jsonl gap-under-beam 0.65/0.70 0.50/0.55 \\\n  --with feeler-leaves --object block=oak",
  )
  .action((file, check, readings, options) =>
    finish(async () => (await import("./commands/read.ts")).readInto(file, check, readings, options)),
  );

program
  .command("findings <file>")
  .description("what the readings mean: how far out each thing is, how sure that is, within or out")
  .option("--all", "also what no limit judges")
  .option("--gate", "exit with 1 unless everything judged is within")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter findings router.jsonl --gate")
  .action((file, options) => finish(async () => (await import("./commands/findings.ts")).showFindings(file, options)));

program
  .command("explain <file> <finding>")
  .description("one finding: what carries it, what it cannot be told from, what would sharpen it, its history")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter explain router.jsonl squareness")
  .action((file, finding, options) =>
    finish(async () => (await import("./commands/explain.ts")).explain(file, finding, options)),
  );

program
  .command("compare <file>")
  .description("before and after: what moved, what stayed, what the work came out like; the last two times by default")
  .option("--from <day>", "as it stood on this day")
  .option("--to <day>", "and on this one; the latest where nothing is said")
  .option("--around <id>", "before and after something that happened, by the end of its id")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter compare router.jsonl --from 2026-05-02")
  .action((file, options) => finish(async () => (await import("./commands/compare.ts")).compare(file, options)));

program
  .command("readings <file>")
  .description("list the readings with their ids")
  .option("--odd", "only those that the fit does not believe")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter readings router.jsonl --odd")
  .action((file, options) =>
    finish(async () => (await import("./commands/corrections.ts")).listReadings(file, options)),
  );

program
  .command("withdraw <file> <ids...>")
  .description("withdraw readings or a run, with a reason; nothing is deleted")
  .requiredOption("--because <reason>", "why")
  .option("--by <who>", "who writes this")
  .addHelpText("after", '\nExample: kilter withdraw router.jsonl 3fa9c1 --because "read the wrong leaf"')
  .action((file, ids, options) =>
    finish(async () => (await import("./commands/corrections.ts")).withdraw(file, ids, options)),
  );

program
  .command("restore <file> <ids...>")
  .description("take a withdrawal back")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter restore router.jsonl 3fa9c1")
  .action((file, ids, options) =>
    finish(async () => (await import("./commands/corrections.ts")).restore(file, ids, options)),
  );

program
  .command("reinterpret <file> <run> <factor>")
  .description("read a whole run in another unit or sign; what was typed is kept")
  .requiredOption("--because <reason>", "why")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter reinterpret router.jsonl 91d2e0 0.0254 --because thousandths")
  .action((file, run, factor, options) =>
    finish(async () => (await import("./commands/corrections.ts")).reinterpret(file, run, factor, options)),
  );

program
  .command("happened <file> <what>")
  .description(
    "note that the machine was homed, powered-on, knocked, transported, skimmed, part-replaced, or moved at an adjuster",
  )
  .option(
    "--member <member>",
    "which member: bed, rails, beam, carriage, slide, spindle, frame, bridge, table",
    collect,
  )
  .option("--amount <amount>", "how far an adjuster was moved, in its unit")
  .option("--note <text>", "anything worth remembering")
  .option("--at <time>", "when, if not now")
  .option("--by <who>", "who writes this")
  .addHelpText(
    "after",
    '\nExample: kilter happened router.jsonl knocked --member beam --note "a clamp"\n         kilter happened router.jsonl beam.right --amount 0.3',
  )
  .action((file, what, options) =>
    finish(async () => (await import("./commands/happened.ts")).happened(file, what, options)),
  );

program
  .command("plan <file>")
  .description("what to move and by how much for the work, in which order, what it brings and how sure that is")
  .option("--lock <adjuster>", "one that stays as it is, this once; may be given again", collect)
  .option("--only <adjuster>", "move nothing but this: what if only this were done; may be given again", collect)
  .option("--stock <leaves>", "shims to pack with, mm, as 0.1,0.2x4; or none")
  .option("--skim <yes|no>", "whether the bed will be skimmed")
  .option("--work <kind>", "another kind of work than the logbook's")
  .option("--look-ahead", "show what would be moved though the fit-to-measure round has not been passed")
  .option("--gate", "exit with 1 unless every demand is expected within after the plan")
  .option("--out <folder>", "write a picture of each move and of what they bring")
  .option("--json", "for machines")
  .addHelpText(
    "after",
    "\nExample: kilter plan router.jsonl --lock frame.toe --out plan\n         kilter plan router.jsonl --only beam.right",
  )
  .action((file, options) => finish(async () => (await import("./commands/plan.ts")).plan(file, options)));

program
  .command("next <file>")
  .description("what to measure next: the checks that bring the work nearest to a decision for their minutes")
  .option("--work <kind>", "another kind of work than the logbook's")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter next router.jsonl")
  .action((file, options) => finish(async () => (await import("./commands/next.ts")).next(file, options)));

program
  .command("work <file>")
  .description("what the work comes out like: what it asks, with chances, and a square, a circle, depth, a stroke …")
  .option("--kind <kind>", "another kind of work than the logbook's")
  .option("--after", "beside it, what it comes out like after the plan")
  .option("--gate", "exit with 1 unless every demand is within; with --after, is expected within after the plan")
  .option("--out <folder>", "write the pictures")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter work router.jsonl --kind lettering --out pictures")
  .action((file, options) => finish(async () => (await import("./commands/work.ts")).work(file, options)));

program
  .command("demands <file> [action] [words...]")
  .description(
    "show what the work asks of the machine; choose a kind of work, set a demand of your own, limit, drop or explain one",
  )
  .option("--limit <limit>", "how far out it may be, for set")
  .option("--unit <unit>", "unit of the limit, if not the demand's own")
  .option("--size <name=value>", "a size of the work, as width=400, for set", collect)
  .option("--middle <x×y>", "middle of the work, mm; of the travel when left out")
  .option("--name <name>", "what you call it")
  .option("--by <who>", "who writes this")
  .option("--json", "for machines")
  .addHelpText(
    "after",
    "\nExample: kilter demands router.jsonl choose lettering\n         kilter demands router.jsonl set depth-spread --limit 0.2 --size width=300\n         kilter demands router.jsonl limit diagonals 0.8\n         kilter demands router.jsonl drop runout\n         kilter demands router.jsonl explain diagonals",
  )
  .action((file, action, words, options) =>
    finish(async () => (await import("./commands/demands.ts")).demands(file, action, words, options)),
  );

program
  .command("adjusters <file> [adjuster]")
  .description("list where the machine can be changed and which way plus is, or say all of one; own figures change it")
  .option("--range <from:to>", "how far it goes from where it stands, or for packing what may lie there in all")
  .option("--uncertainty <u>", "what nipping up leaves to chance, in its unit, as a standard uncertainty")
  .option("--minutes <min>", "how long the joint takes you")
  .option("--available <yes|no>", "whether your machine has this place and you get at it")
  .option("--pitch <mm>", "pitch of the screw by which it is set; the plan then says turns")
  .option("--usual", "forget own figures that were given before")
  .option("--by <who>", "who writes this")
  .option("--json", "for machines")
  .addHelpText(
    "after",
    "\nExample: kilter adjusters router.jsonl\n         kilter adjusters router.jsonl beam.right --minutes 12",
  )
  .action((file, adjuster, options) =>
    finish(async () => (await import("./commands/adjusters.ts")).adjusters(file, adjuster, options)),
  );

program
  .command("done <file> <adjuster>")
  .description("note a move that was made, and what the gauge read while its screws were made fast")
  .option("--amount <amount>", "how far it was moved from where it stood, in its unit")
  .option("--planned <amount>", "what was advised, where you did otherwise")
  .option("--station <place>", "where the gauge stood")
  .option("--run <id>", "run whose zero or block the gauge went on with")
  .option("--check <check>", "or the check that it was set up for anew")
  .option("--loose <reading>", "what it read with the screws loose")
  .option("--nipped <reading>", "with the screws nipped up")
  .option("--final <reading>", "and tight: this is also a reading like any other")
  .option("--before <place=reading>", "what it is held against: read before the joint was opened")
  .option("--beside <place=reading>", "or read with it at another place, where the run is a new one")
  .option("--with <tool>", "the instrument of a new run; the first of yours that fits when left out")
  .option("--object <role=id>", "an object that a new run leans on", collect)
  .option("--set <key=value>", "how a new run was set up", collect)
  .option("--unit <unit>", "unit of readings that name none")
  .option("--lay <leaves>", 'leaves that were laid, mm, as "0.2 0.1"')
  .option("--take-out <leaves>", "leaves that were taken out, mm")
  .option("--note <text>", "anything worth remembering")
  .option("--at <time>", "when, if not now")
  .option("--by <who>", "who did it")
  .option("--json", "for machines")
  .addHelpText(
    "after",
    '\nExample: kilter done router.jsonl beam.right --amount 0.25 --run 91d2e0 \\\n           --station "front right" --nipped 0.60/0.65 --final 0.55/0.60',
  )
  .action((file, adjuster, options) =>
    finish(async () => (await import("./commands/done.ts")).done(file, adjuster, options)),
  );

program
  .command("undo <file> [id]")
  .description("list moves and whatever else happened, or take one back that was noted by mistake")
  .option("--because <reason>", "why")
  .option("--by <who>", "who writes this")
  .option("--json", "for machines")
  .addHelpText("after", '\nExample: kilter undo router.jsonl 5b01cd --because "it was the left side"')
  .action((file, id, options) => finish(async () => (await import("./commands/undo.ts")).undo(file, id, options)));

program
  .command("lock <file> <adjuster>")
  .description("say that an adjuster must stay as it is; no plan moves it")
  .requiredOption("--because <reason>", "why")
  .option("--by <who>", "who writes this")
  .addHelpText("after", '\nExample: kilter lock router.jsonl frame.toe --because "the corners are glued"')
  .action((file, adjuster, options) =>
    finish(async () => (await import("./commands/at-hand.ts")).lock(file, adjuster, options)),
  );

program
  .command("unlock <file> <adjuster>")
  .description("let plans move an adjuster again")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter unlock router.jsonl frame.toe")
  .action((file, adjuster, options) =>
    finish(async () => (await import("./commands/at-hand.ts")).unlock(file, adjuster, options)),
  );

program
  .command("stock <file> [leaves...]")
  .description("show the shims that are there to pack with, or list yours in mm; none, or usual for the usual ones")
  .option("--by <who>", "who writes this")
  .option("--json", "for machines")
  .addHelpText("after", "\nExample: kilter stock router.jsonl 0.5 0.2x2 0.1x4 0.05")
  .action((file, leaves, options) =>
    finish(async () => (await import("./commands/at-hand.ts")).stock(file, leaves, options)),
  );

program
  .command("skim <file> <answer>")
  .description("say whether the machine will skim its bed: yes, no, or ask to leave it to the plan")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter skim router.jsonl yes")
  .action((file, answer, options) =>
    finish(async () => (await import("./commands/at-hand.ts")).decideSkim(file, answer, options)),
  );

program
  .command("limit <file> <finding> <value>")
  .description("judge a finding by your own limit, in its unit; none goes back to what is usual")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter limit router.jsonl squareness 0.5")
  .action((file, finding, value, options) =>
    finish(async () => (await import("./commands/happened.ts")).setLimit(file, finding, value, options)),
  );

program
  .command("coordinates <file> <axes...>")
  .description("show stations in your machine's own coordinates: for each axis its name, direction and zero")
  .option("--tried", "one move has shown that the directions are right")
  .option("--by <who>", "who writes this")
  .addHelpText("after", "\nExample: kilter coordinates router.jsonl x=X+0 y=Y+0 z=Z-70")
  .action((file, axes, options) =>
    finish(async () => (await import("./commands/happened.ts")).setCoordinates(file, axes, options)),
  );

program
  .command("export <file>")
  .description("write the sheet, the drawings, the readings as a table and the findings as data")
  .requiredOption("--to <folder>", "folder, made if it is not there")
  .addHelpText("after", "\nExample: kilter export router.jsonl --to router-sheet")
  .action((file, options) => finish(async () => (await import("./commands/export.ts")).exportLogbook(file, options)));

const database = program
  .command("database")
  .description("machines in the server's database: list them, take logbooks in and out, back it up, check it");

const place = `\nThe database is kept in ${dataFolder()}.\nKILTER_DATA or --data names another folder.\n`;

function databaseVerb(usage: string, description: string, example: string) {
  return database
    .command(usage)
    .description(description)
    .option("--data <folder>", "folder of the database")
    .option("--json", "for machines")
    .addHelpText("after", `${place}\nExample: kilter database ${example}`);
}

databaseVerb("list", "list the machines in the database, and its backups", "list").action((options) =>
  finish(async () => (await import("./commands/database.ts")).listDatabase(options)),
);

databaseVerb("import <files...>", "take logbooks in; what is there already is passed over", "import router.jsonl")
  .option("--machine <machine>", "the machine they belong to, by its name or its id, where that is not clear")
  .action((files, options) =>
    finish(async () => (await import("./commands/database.ts")).importIntoDatabase(files, options)),
  );

databaseVerb(
  "export <machine>",
  "write a machine's logbook, by the machine's name or its id",
  'export "Router in the shed" --to router.jsonl',
)
  .option("--to <file>", "file to write, with its photographs in a folder beside it; without, standard output")
  .action((machine, options) =>
    finish(async () => (await import("./commands/database.ts")).exportFromDatabase(machine, options)),
  );

databaseVerb(
  "backup",
  "copy the whole database into one file, beside a server that runs",
  "backup --to /media/stick/kilter.db",
)
  .option("--to <file>", "file to write; without, one named by the date among the database's backups")
  .action((options) => finish(async () => (await import("./commands/database.ts")).backUpDatabase(options)));

databaseVerb("check", "look through every page, event and photograph of the database", "check").action((options) =>
  finish(async () => (await import("./commands/database.ts")).checkDatabase(options)),
);

program
  .command("serve")
  .description("start the server and its page on this computer, for its users alone unless it is shared")
  .option("--port <port>", "port to listen on; without, 4170 or the next that is free")
  .option("--share", "let paired devices of the workshop's network in; shows a code for pairing")
  .option("--tls", "encrypt what goes over the network, with a certificate of its own")
  .option("--data <folder>", "folder of the database")
  .option("--stay", "go on when the terminal it was started in is closed")
  .option("--quiet", "leave out what comes of the demonstration, and start the sooner")
  .addHelpText("after", `${place}\nExample: kilter serve --share`)
  .action((options) => finish(async () => (await import("./commands/serve.ts")).serve(options, version)));

program
  .command("schema")
  .description("print the JSON Schema of one event of a logbook")
  .addHelpText("after", "\nExample: kilter schema > event.schema.json")
  .action(() => finish(async () => (await import("./commands/schema.ts")).printSchema()));

program
  .command("completion <shell>")
  .description("print shell completion for bash, zsh or fish")
  .addHelpText("after", "\nExample: kilter completion bash >> ~/.bashrc")
  .action((shell) => finish(async () => (await import("./commands/completion.ts")).printCompletion(program, shell)));

async function finish(run: Run): Promise<void> {
  try {
    process.exitCode = await run();
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    for (const diagnostic of error.diagnostics) writeDiagnostic(diagnostic);
    process.exitCode = exitStatus.badInput;
  }
}

// A pipe that is closed early, as by head, is no mistake.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(exitStatus.done);
  writeDiagnostic(refusal("output-unwritable", {}, { reason: reasonOf(error) }));
  process.exit(exitStatus.badInput);
});

await program.parseAsync();
