import { cloudflareTest } from "@cloudflare/vitest-pool-workers";
import { defineConfig } from "vitest/config";
import { ELSEWHERE, FLOORS } from "./tests/setup/floors.js";

const jsx = { oxc: { jsx: { runtime: "automatic" as const, importSource: "#page" } } };

/** Agree within parts of a hundred, whatever another Node makes of the last digit of a logarithm (`tests/setup/run.ts`). */
const NOT_AGAIN = ["tests/estimating/risk/simulation.test.ts", "tests/estimating/closeout/simulatedShop.test.ts"];

export default defineConfig({
  test: {
    // Here, not in the workerd project: there the libSQL client is its web build and refuses a file.
    globalSetup: ["tests/workerd/setup.ts"],
    silent: "passed-only",
    // Left to itself vitest keeps one core free: half of a machine that has two.
    maxWorkers: "100%",
    coverage: {
      include: ["src/**"],
      exclude: ELSEWHERE,
      reporter: ["text-summary", "html"],
      thresholds: Object.fromEntries(Object.entries(FLOORS).map(([room, floor]) => [`src/${room}/**`, floor])),
    },
    projects: [
      {
        ...jsx,
        test: {
          name: "node",
          // A fresh module world for each of 130 files cost a quarter of the run; what a test leaves behind it must clear itself.
          isolate: false,
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: [
            ...["tests/workerd/**", "tests/browser/**", "tests/paper/**", "tests/**/*.paper.test.ts"],
            ...(process.env.OTHER_NODE ? NOT_AGAIN : []),
          ],
          setupFiles: ["tests/setup/seed.ts"],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      // Needs poppler-utils, qpdf and LibreOffice.
      {
        ...jsx,
        test: {
          name: "paper",
          isolate: false,
          setupFiles: ["tests/setup/seed.ts"],
          include: ["tests/paper/**/*.test.ts", "tests/stories/*.paper.test.ts"],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      // Needs Chromium.
      {
        ...jsx,
        test: {
          name: "browser",
          isolate: false,
          include: ["tests/browser/**/*.test.ts"],
          testTimeout: 300_000,
          hookTimeout: 300_000,
          expect: { poll: { timeout: 60_000 } },
        },
      },
      {
        ...jsx,
        plugins: [cloudflareTest({ wrangler: { configPath: "./wrangler.toml" } })],
        // One database stands behind all files, and a backup is of one that stands still.
        test: {
          name: "workerd",
          fileParallelism: false,
          include: ["tests/workerd/**/*.test.ts"],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
