// Shows the whole job on the machine that comes with the program. What follows `npm start --` is passed on.
import { fileURLToPath, pathToFileURL } from "node:url";
import { freshBuild } from "./fresh-build.mjs";

const words = ["demonstration", "--to", "kilter-demonstration"];

const built = freshBuild();
process.chdir(fileURLToPath(new URL("..", import.meta.url)));
// In this process, so that a signal reaches whatever goes on running.
process.argv.splice(1, 1, built, ...words);
await import(pathToFileURL(built));
