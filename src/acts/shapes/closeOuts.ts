/** What the API says of closed jobs: what they came to, and the final account. What one is closed with is said in `closeJob.ts`. */
import { z } from "zod";
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { CLOSE_OUT_CATEGORIES, VARIANCES } from "../../estimating/closeout/variance/row.js";
import { amount, currency, isoDate, label, line, maybe, minutes, percent } from "./primitives.js";
import { adjustment, groupPrice, linePart, sheetLine, totals } from "./sheet.js";

const text = z.string();
const count = z.number();
const instant = text.meta({ format: "date-time" });
const hash = text.meta({ description: "SHA-256, hex" });
const override = z.strictObject({ reason: line, by: line });
const basis = z.enum(["fixed price", "time and parts", "declined", "taken back", "nothing done"]);
const payment = z.strictObject({
  on: isoDate,
  amount,
  for: z.enum(["deposit", "balance", "diagnosis fee", "decline fee", "refund", "other"]),
});
const oldParts = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("returned") }),
  z.strictObject({ is: z.literal("kept"), why: label }),
]);
const figureKeys = {
  quoted: amount,
  agreed: amount,
  allowed: amount,
  actual: amount,
  variance: z.strictObject(
    Object.fromEntries(VARIANCES.map((kind) => [kind, amount])) as Record<(typeof VARIANCES)[number], typeof amount>,
  ),
};
const figures = z.strictObject(figureKeys).meta({ id: "CloseOutFigures" });
const category = z.enum(CLOSE_OUT_CATEGORIES);
const assembly = z.strictObject({ id: text, name: text });
const quantity = z.strictObject({ quoted: count, agreed: count, allowed: count, actual: count });
const row = z
  .strictObject({
    ...figureKeys,
    id: text,
    category,
    is: z.union([z.strictObject({ line: sheetLine }), z.strictObject({ adjustment })]),
    item: maybe(text),
    assembly: maybe(assembly),
    minutes: maybe(quantity),
    pieces: maybe(quantity),
    logged: maybe(z.boolean()),
    untimed: maybe(z.enum(["done", "as planned"])).meta({ description: "Nobody timed it: its actual is what was allowed" }),
  })
  .meta({ id: "CloseOutRow" });
const scopeCause = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("revision"), from: count, to: count }),
  z.strictObject({ is: z.literal("choice"), revision: count }),
  z.strictObject({ is: z.literal("not done") }),
  z.strictObject({ is: z.literal("found") }),
  z.strictObject({ is: z.literal("found and done") }).meta({ description: "Both, in records from before they were told apart" }),
]);
const compared = z
  .strictObject({
    currency,
    rows: z.array(row),
    items: z.array(figures.extend({ item: maybe(text) })),
    assemblies: z.array(figures.extend({ assembly: maybe(assembly) })),
    categories: z.array(figures.extend({ category })),
    total: figures,
    scope: z.array(z.strictObject({ cause: scopeCause, amount, categories: z.array(z.strictObject({ category, amount })) })),
    risk: z.array(
      z.strictObject({
        line: sheetLine,
        charged: amount,
        covers: z.enum(["work", "parts", "found"]),
        used: amount,
        kept: amount,
      }),
    ),
    ifFound: z.array(z.strictObject({ group: groupPrice, probability: count, found: z.boolean() })),
    attended: z.strictObject({
      ...{ allowed: minutes, actual: minutes },
      charged: maybe(z.literal("expected")).meta({ description: "Allowed is what is charged; absent: likely minutes" }),
    }),
  })
  .meta({ id: "Compared" });

const limit = z.strictObject({
  agreed: amount,
  upTo: amount,
  withTax: z.boolean(),
  by: z.enum(["owner's ceiling", "ceiling", "tolerance", "if declined"]),
});
const partFitted = z.strictObject({ part: linePart, state: z.enum(PART_STATES), count });
const account = z
  .strictObject({
    basis,
    on: isoDate,
    currency,
    lines: z.array(sheetLine),
    adjustments: z.array(adjustment),
    held: z.strictObject({
      over: amount,
      allowances: z.array(z.strictObject({ charge: z.boolean(), amount, taxCategory: text })),
    }),
    limit,
    above: maybe(override),
    totals,
    payments: z.array(payment),
    hours: z.array(
      z.strictObject({ labourClass: z.strictObject({ id: text, name: text }), minutes, ratePerHour: amount, amount }),
    ),
    worked: z.strictObject({
      ...{ attended: minutes, unattended: minutes },
      untimed: maybe(minutes).meta({ description: "Planned time of what was done and not timed; not in the other two" }),
    }),
    since: maybe(
      z
        .strictObject({
          agreed: amount,
          notDone: z.array(z.strictObject({ item: text, count })),
          steps: z.array(z.strictObject({ is: z.enum(["not done", "found", "actual", "limit", "agreed then"]), amount })),
        })
        .meta({
          description:
            "From the agreed total to this one, tax included; the steps sum to the difference. Absent in records from before it was told",
        }),
    ),
    agreedThen: maybe(
      z.strictObject({
        ...{ charged: z.boolean(), amount },
        held: maybe(z.strictObject({ over: amount, upTo: amount, rows: count })),
      }),
    ).meta({
      description:
        "Agreed work done before the agreement was taken back: what it comes to, tax included, and whether it is charged; `held`: how much more it was, and the last `rows` of the allowances for that",
    }),
    parts: z.array(partFitted),
    fitted: maybe(
      z.array(partFitted.extend({ insteadOf: maybe(linePart), beyond: maybe(z.literal(true)) })).meta({
        description: "Pieces as they are charged: `insteadOf` what was agreed, `beyond` what a fixed price charges",
      }),
    ),
    notCharged: amount,
    warranty: z.strictObject({ days: count, until: isoDate }),
    oldParts,
    handBack: maybe(
      z.strictObject({ to: maybe(text), accessories: z.array(text), note: maybe(text), opened: maybe(z.literal(false)) }),
    ).meta({
      description: "Of a job that was declined, or of which nothing agreed was done: then without `to`",
    }),
  })
  .meta({ id: "FinalAccount" });
const margin = z
  .strictObject({
    ...{ revenue: amount, labour: amount, parts: amount, other: amount, margin: amount },
    percent: maybe(percent),
    perHour: maybe(amount),
    untimed: maybe(z.literal(true)).meta({ description: "Work is billed whose time nobody knows: there is no `perHour`" }),
  })
  .meta({ id: "Margin" });

export const keptCloseOut = z
  .strictObject({
    ...{ id: text, jobId: text, at: instant, closedOn: isoDate, by: text, agreementId: maybe(text) },
    result: z.strictObject({ closeOut: maybe(compared), account, margin: maybe(margin), planned: maybe(margin) }),
    contentHash: hash,
    pdfHash: hash,
    ...{ headNumber: count, headHash: hash },
    overrideId: maybe(text),
    corrects: maybe(text),
    reason: maybe(text),
  })
  .meta({ id: "CloseOutRecord" });
