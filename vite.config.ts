import { chmodSync } from "node:fs";
import { defineConfig } from "vite";

/** Builds the command line with everything it needs; each verb is a chunk of its own, so that help loads none of them. */
export default defineConfig({
  build: {
    ssr: true,
    outDir: "dist/cli",
    target: "node20",
    minify: true,
    sourcemap: false,
    rollupOptions: {
      input: { kilter: "src/cli/main.ts" },
      output: { format: "es", banner: (chunk) => (chunk.isEntry ? "#!/usr/bin/env node" : "") },
    },
  },
  // The database and the solver have a part in machine code, which no bundle can hold.
  ssr: { noExternal: true, external: ["libsql", "highs"] },
  plugins: [
    {
      name: "executable",
      writeBundle: ({ dir }) => chmodSync(`${dir}/kilter.js`, 0o755),
    },
  ],
});
