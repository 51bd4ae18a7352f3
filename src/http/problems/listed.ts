/** Every kind of problem with its address, as `/problems` lists it. */
import { AGREEMENT_FAULTS, ANSWERS, ENGINE_FAULTS, LOG_FAULTS, SHAPE_FAULTS, typeOf } from "./catalogue.js";

export const listed = [
  ...Object.entries(ANSWERS).map(([name, { status, title }]) => ({ type: typeOf(name), name, status, meaning: title })),
  ...Object.entries({ ...SHAPE_FAULTS, ...ENGINE_FAULTS, ...LOG_FAULTS, ...AGREEMENT_FAULTS }).map(([name, meaning]) => ({
    type: typeOf(name),
    name,
    status: 422 as number,
    meaning,
  })),
];
