/** Random cases are drawn from one seed, so that a landing is no lottery. `PROPERTY_SEED=random npm run test:quick` looks further; any number repeats a run. */
import fc from "fast-check";
import { runs } from "./runs.js";

const asked = process.env.PROPERTY_SEED;
fc.configureGlobal({ ...runs(100), ...(asked !== "random" && { seed: Number(asked ?? 20_261_125) }) });
