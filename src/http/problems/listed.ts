/** Every kind of problem with its address, as `/problems` lists it. */
import { AGREEMENT_FAULTS, ANSWERS, ENGINE_FAULTS, LOG_FAULTS, SHAPE_FAULTS, typeOf } from "../../acts/refusals.js";

/** Of a whole request. */
export const wholeListed = Object.entries(ANSWERS).map(([name, { status, title }]) => ({
  type: typeOf(name),
  name,
  status: status as number,
  meaning: title,
}));

/** Within what was sent: they stand under `errors`. */
export const withinListed = Object.entries({ ...SHAPE_FAULTS, ...ENGINE_FAULTS, ...LOG_FAULTS, ...AGREEMENT_FAULTS }).map(
  ([name, meaning]) => ({ type: typeOf(name), name, status: 422, meaning }),
);

export const listed = [...wholeListed, ...withinListed];
