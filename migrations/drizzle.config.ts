import { defineConfig } from "drizzle-kit";

/** Run from the top of the repository: npm run migration -- --name WHY. Add STRICT to each new table by hand (a test looks). */
export default defineConfig({ dialect: "turso", schema: "./src/records/*.ts", out: "./migrations" });
