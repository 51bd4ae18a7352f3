/** What looking back answers. Figures of accuracy are in minor units where they are amounts, and not rounded. */
import { z } from "zod";
import { amount, maybe, minutes, percent, threePoint } from "./primitives.js";

const count = z.int().min(0);
const share = z.number().min(0).max(1);

const accuracy = z
  .strictObject({
    jobs: count,
    bias: z.number().meta({ description: "Mean of actual less estimated; minor units" }),
    spread: maybe(z.number()),
    meanAbsoluteError: z.number(),
    meanAbsolutePercent: maybe(percent),
    medianAbsolutePercent: maybe(percent),
    pinball50: z.number(),
    pinball80: maybe(z.number()),
    coverage80: maybe(z.strictObject({ within: count, of: count, share, low: share, high: share })),
  })
  .meta({ id: "Accuracy" });

const earned = z
  .strictObject({ jobs: count, revenue: amount, cost: amount, margin: amount, percent: maybe(percent) })
  .meta({ id: "Earned", description: "Only jobs whose costs are known" });

export const accuracyAnswer = z
  .strictObject({
    currency: z.string(),
    overall: maybe(accuracy),
    earned,
    byModel: z.array(z.strictObject({ model: z.string(), accuracy: maybe(accuracy), earned })),
    byMonth: z.array(z.strictObject({ month: z.string(), earned })),
    dearest: z.array(
      z.strictObject({
        standard: z.string(),
        name: z.string(),
        observations: count,
        jobs: count,
        allowed: minutes,
        taken: minutes,
        cost: amount,
      }),
    ),
  })
  .meta({ id: "AccuracyBoard" });

export const accuracyQuery = z.strictObject({
  from: maybe(z.iso.date()),
  to: maybe(z.iso.date()),
  model: maybe(z.string().min(1).max(300)),
});

const change = z.strictObject({
  pointer: z.string().meta({ description: "JSON Pointer into the rate book" }),
  was: z.union([threePoint, z.number()]),
  proposed: z.union([threePoint, z.number()]),
});

export const proposalsAnswer = z
  .strictObject({
    version: count,
    jobs: count.meta({ description: "Closed jobs it rests on" }),
    unread: count.meta({ description: "Closed jobs this version has not read yet" }),
    proposals: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        changes: z.array(change),
        observations: count,
        jobs: count,
        weight: share.meta({ description: "How far the observations outweigh the book" }),
        most: maybe(
          z.strictObject({ job: z.string(), number: z.string(), changes: z.array(change), leftOut: maybe(z.literal(true)) }),
        ).meta({
          description:
            "The job that moves it most, and what would be proposed without it; `leftOut`: that is what is proposed, since it is far from all others and would move the likely time away from what it took",
        }),
      }),
    ),
  })
  .meta({ id: "Proposals" });
