import { z } from "zod";
import { amount, hazard, ident, line, maybe, power, prose } from "./primitives.js";

export const unit = z
  .strictObject({
    maker: line,
    model: line,
    serial: maybe(line),
    declaredValue: maybe(amount),
    grade: maybe(ident).meta({
      description:
        "Id of one of the rate book's condition grades; absent while nobody has judged it, and then it counts as the first of them",
    }),
    accessories: maybe(z.array(line)),
    condition: maybe(prose),
    reported: maybe(prose),
    found: maybe(prose),
    storedData: maybe(prose),
    hazards: maybe(z.array(hazard)),
    power: maybe(power),
  })
  .meta({ id: "Unit" });
