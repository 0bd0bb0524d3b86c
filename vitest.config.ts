import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "tests/**/*.test.ts"],
    // For what hangs: how long something may take is a matter of bench/, and a busy computer must fail nothing.
    testTimeout: 1_200_000,
    hookTimeout: 1_200_000,
    pool: "forks",
    maxWorkers: 2,
  },
});
