import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { drawingStyles, tokenStyles } from "./src/core/drawing/stylesheet.ts";

/** Distributions come one package each, and of the most only one is used: nothing happens when one is merely loaded. */
const moduleSideEffects = (id: string) => !/node_modules\/(@stdlib|ml-)/.test(id);

/**
 * The schemas check events here and describe themselves to nobody: what makes JSON Schemas of them is left out. Its names
 * stay, because the library hands them on.
 */
const withoutJsonSchemas = (): Plugin => ({
  name: "without-json-schemas",
  enforce: "pre",
  load(id) {
    if (!/zod\/v4\/core\/(to-json-schema|json-schema-processors|json-schema-generator)\.js$/.test(id)) return null;
    const names = [...readFileSync(id, "utf8").matchAll(/^export (?:const|function|class) (\w+)/gm)].map(
      ([, name]) => name,
    );
    return [
      ...names.map((name) => `export const ${name} = () => undefined;`),
      "export { initializeContext as process };",
    ]
      .slice(0, id.endsWith("to-json-schema.js") ? undefined : -1)
      .join("\n");
  },
});

/** A library of many small files says its licence in each: in a script every notice stands once. */
const oneNoticeEach = (): Plugin => ({
  name: "one-notice-each",
  generateBundle(_, bundle) {
    for (const chunk of Object.values(bundle)) {
      if (chunk.type !== "chunk") continue;
      const said = new Set<string>();
      chunk.code = chunk.code.replace(/\/\*[*!]\s*\*?\s*@license[\s\S]*?\*\//g, (notice) => {
        if (said.has(notice)) return "";
        said.add(notice);
        return notice;
      });
    }
  },
});

/** Builds the page: one script for what is seen, one for the worker that computes, the letters beside them. */
export default defineConfig({
  root: "src/web",
  base: "/",
  // By its usual entry the whole library comes along, by its modules only what is used of it.
  resolve: { alias: { "ml-matrix": fileURLToPath(new URL("node_modules/ml-matrix/src/index.js", import.meta.url)) } },
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    target: "es2022",
    // The page's policy takes nothing that is not a file of the server's own.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    sourcemap: false,
    // What is first loaded has a limit of its own, in tests/e2e; the model that is turned comes only when it is asked for.
    chunkSizeWarningLimit: 1000,
    rollupOptions: { treeshake: { moduleSideEffects }, checks: { pluginTimings: false } },
  },
  worker: {
    format: "es",
    plugins: () => [withoutJsonSchemas(), oneNoticeEach()],
    rollupOptions: { treeshake: { moduleSideEffects } },
  },
  plugins: [
    oneNoticeEach(),
    {
      // Colours and kinds of line are stated once, where the drawings are made.
      name: "drawing-styles",
      enforce: "pre",
      transform: (code, id) =>
        id.endsWith("/styles/drawing.css") ? `${code}\n${tokenStyles}\n${drawingStyles}` : null,
    },
  ],
});
