// Shows the whole job on the machine that comes with the program. What follows `npm start --` is passed on.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { freshBuild } from "./fresh-build.mjs";

const { status } = spawnSync(
  process.execPath,
  [freshBuild(), "demonstration", "--to", "kilter-demonstration", ...process.argv.slice(2)],
  { cwd: fileURLToPath(new URL("..", import.meta.url)), stdio: "inherit" },
);
process.exit(status ?? 1);
