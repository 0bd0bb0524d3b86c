// Starts the server, which shows the main job and goes on serving. What follows `npm start --` is passed on:
//   npm start -- --share      lets the workshop's network in
//   npm start -- --once       prints the whole job on the machine that comes with the program, and ends
import { fileURLToPath, pathToFileURL } from "node:url";
import { freshBuild } from "./fresh-build.mjs";

const asked = process.argv.slice(2);
const words = asked.includes("--once")
  ? ["demonstration", "--to", "kilter-demonstration", ...asked.filter((word) => word !== "--once")]
  : ["serve", ...asked];

const built = await freshBuild();
process.chdir(fileURLToPath(new URL("..", import.meta.url)));
// In this process, so that a signal reaches whatever goes on running.
process.argv.splice(1, process.argv.length, built, ...words);
await import(pathToFileURL(built));
