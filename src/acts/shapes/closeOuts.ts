/** What the API says of closed jobs: what they are closed with, what they came to, and the final account. */
import { z } from "zod";
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { CLOSE_OUT_CATEGORIES, VARIANCES } from "../../estimating/closeout/variance/row.js";
import { amount, currency, ident, isoDate, label, line, maybe, minutes, percent } from "./primitives.js";
import { adjustment, groupPrice, linePart, sheetLine, totals } from "./sheet.js";

const text = z.string();
const count = z.number();
const instant = text.meta({ format: "date-time" });
const hash = text.meta({ description: "SHA-256, hex" });
const override = z.strictObject({ reason: line, by: line });
const basis = z.enum(["fixed price", "time and parts"]);
const payment = z.strictObject({ on: isoDate, amount, for: z.enum(["deposit", "diagnosis fee", "other"]) });
const oldParts = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("returned") }),
  z.strictObject({ is: z.literal("kept"), why: label }),
]);
const costs = z.strictObject({
  perHour: z.record(label, amount),
  otherwise: amount.meta({ description: "An hour of anybody not named, and of hours planned" }),
  other: z.array(z.strictObject({ what: line, amount })).max(100),
});
const MOST = 2000;

export const closeOut = z
  .strictObject({
    by: label,
    closedOn: isoDate,
    basis: maybe(basis).meta({ description: "As the job was priced when absent" }),
    found: maybe(z.array(ident).max(MOST)).meta({
      description: "Groups 'if found' of the agreed sheet that proved necessary, beyond those the work log tells of",
    }),
    done: maybe(z.record(ident, count)).meta({
      description: "Counts really done, by work item, where they are below the agreed; as ticked off when absent",
    }),
    payments: z.array(payment).max(100),
    warrantyDays: count,
    oldParts,
    above: maybe(override).meta({
      description: "Lets the account pass the limit agreed; otherwise what is above is not charged",
    }),
    costs: maybe(costs).meta({ description: "What it cost the shop; there is no margin when absent" }),
    corrects: maybe(ident).meta({ description: "Id of the close-out that stands, which this one corrects" }),
    reason: maybe(label).meta({ description: "Why it is corrected; wanted with `corrects`" }),
  })
  .superRefine(({ corrects, reason }, context) => {
    if (corrects !== undefined && !reason?.trim())
      context.addIssue({ code: "custom", path: ["reason"], params: { name: "reason missing" } });
  })
  .meta({ id: "CloseOut" });

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
  })
  .meta({ id: "CloseOutRow" });
const scopeCause = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("revision"), from: count, to: count }),
  z.strictObject({ is: z.literal("choice"), revision: count }),
  z.strictObject({ is: z.literal("found and done") }),
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
    attended: z.strictObject({ allowed: minutes, actual: minutes }),
  })
  .meta({ id: "Compared" });

const limit = z.strictObject({
  agreed: amount,
  upTo: amount,
  withTax: z.boolean(),
  by: z.enum(["owner's ceiling", "ceiling", "tolerance"]),
});
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
    worked: z.strictObject({ attended: minutes, unattended: minutes }),
    parts: z.array(z.strictObject({ part: linePart, state: z.enum(PART_STATES), count })),
    notCharged: amount,
    warranty: z.strictObject({ days: count, until: isoDate }),
    oldParts,
  })
  .meta({ id: "FinalAccount" });
const margin = z
  .strictObject({
    ...{ revenue: amount, labour: amount, parts: amount, other: amount, margin: amount },
    percent: maybe(percent),
    perHour: maybe(amount),
  })
  .meta({ id: "Margin" });

export const keptCloseOut = z
  .strictObject({
    ...{ id: text, jobId: text, at: instant, closedOn: isoDate, by: text, agreementId: text },
    result: z.strictObject({ closeOut: compared, account, margin: maybe(margin), planned: maybe(margin) }),
    contentHash: hash,
    pdfHash: hash,
    ...{ headNumber: count, headHash: hash },
    overrideId: maybe(text),
    corrects: maybe(text),
    reason: maybe(text),
  })
  .meta({ id: "CloseOutRecord" });
