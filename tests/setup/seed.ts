/** Random cases are drawn from one seed, so that a landing is no lottery. `PROPERTY_SEED=random npm run test:quick` looks further; any number repeats a run. */
import fc from "fast-check";

const asked = process.env.PROPERTY_SEED;
if (asked !== "random") fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(asked ?? 20_261_125) });
