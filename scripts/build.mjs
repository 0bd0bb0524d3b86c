// Builds the command line and the page, side by side: npm run build.
import { buildAll } from "./fresh-build.mjs";

await buildAll();
