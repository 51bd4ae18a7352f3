/** A desk in a test: fixed clock, ids that rise and can be told beforehand. */

import type { z } from "zod";
import type { Act, Desk } from "../../../src/acts/act.js";
import { carryOut, type Outcome } from "../../../src/acts/carryOut.js";
import { jobsRead } from "../../../src/acts/job.js";
import { papersOf } from "../../../src/http/doors/papers.js";
import type { Database } from "../../../src/records/database.js";
import { holdTo, untold } from "./told.js";

let made = 0;

export const deskAt = (db: Database, at: string, first?: string): Desk => {
  let asked = 0;
  return {
    db,
    at,
    now: new Date(at),
    job: jobsRead(db),
    papers: papersOf(db),
    newId: () => {
      asked += 1;
      if (first !== undefined) return asked === 1 ? first : `${first}-${asked}`;
      made += 1;
      return `made-${String(made).padStart(8, "0")}`;
    },
  };
};

/** Carries an act out under a key, as a request would; `once` absent: without one. A refusal has to say what one can act on. */
export const done = async <F extends z.ZodObject, A, On>(
  act: Act<F, A, On>,
  desk: Desk,
  value: z.output<F>,
  on: On,
  once?: string,
): Promise<Outcome<A>> => {
  const outcome = await carryOut(
    act,
    desk,
    value,
    on,
    once === undefined
      ? undefined
      : {
          ...{ target: act.name, key: once, fingerprint: JSON.stringify(value) },
          reply: (answer) => ({ status: 200, headers: {}, body: JSON.stringify(answer) }),
        },
  );
  const keys = Object.keys(act.fields.shape);
  if (!outcome.ok)
    holdTo(untold(outcome.refusal, keys.length > 0 ? keys : undefined), `${act.name} refused: ${outcome.refusal.is}`);
  return outcome;
};
