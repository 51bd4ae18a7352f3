/** The engine without a shop: an input in, a sheet or a document out. Nothing is kept. */
import { createRoute, z } from "@hono/zod-openapi";
import { engineFaults } from "../../acts/fault.js";
import { estimateInput } from "../../acts/shapes/estimateInput.js";
import { amount } from "../../acts/shapes/primitives.js";
import { packagePrices, riskSummary, sheet } from "../../acts/shapes/sheet.js";
import { benchSheetPdf } from "../../documents/benchSheetPdf.js";
import { estimatePdf } from "../../documents/estimatePdf.js";
import { shopCopyPdf } from "../../documents/shopCopyPdf.js";
import { packagePrices as priced } from "../../estimating/agreement/packages.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { Sheet } from "../../estimating/sheet.js";
import { refineBoards } from "../../estimating/teardown/refineBoards.js";
import { ALWAYS, json, ON_BODY, pdf, problems } from "../doors/answers.js";
import { logoOf } from "../doors/logo.js";
import { router } from "../doors/router.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { refused } from "./change.js";

export const promised = (input: EstimateInput, of: Sheet) => ({
  sheet: of as z.infer<typeof sheet>,
  neverMore: neverMore(of),
  ...(input.paperwork?.packages && { packages: priced(input, of) as z.infer<typeof packagePrices> }),
});

export const promisedSheet = z.strictObject({
  sheet,
  neverMore: amount.meta({ description: "The most that agreeing allows, tax included: the ceiling, or a total above it" }),
  packages: packagePrices,
});

export const estimate = router();
const tags = ["pricing"];
const request = { body: { required: true, content: { "application/json": { schema: estimateInput } } } };
const refusals = problems(...ON_BODY, ...ALWAYS);

estimate.openapi(
  createRoute({
    method: "post",
    path: "/api/estimate",
    tags,
    operationId: "priceEstimate",
    summary: "Price an estimate",
    request,
    responses: {
      200: json(promisedSheet, "The sheet, what it promises, and the price of each package"),
      ...refusals,
    },
  }),
  (c) => {
    const input = c.req.valid("json");
    const outcome = compute(input);
    if (!outcome.ok) return refused(c, "input refused", { errors: engineFaults(outcome.problems) });
    return c.json(promised(input, outcome.sheet), 200);
  },
);

estimate.openapi(
  createRoute({
    method: "post",
    path: "/api/estimate/risk",
    tags,
    operationId: "weighEstimate",
    summary: "What an estimate may cost the shop; nothing of it is for the owner",
    request,
    responses: {
      200: json(z.strictObject({ risk: riskSummary }), "The risk of the work, by the pricing of the input"),
      ...refusals,
    },
  }),
  (c) => {
    const outcome = compute(c.req.valid("json"), { risk: true });
    if (!outcome.ok) return refused(c, "input refused", { errors: engineFaults(outcome.problems) });
    return c.json({ risk: outcome.sheet.risk as z.infer<typeof riskSummary> }, 200);
  },
);

estimate.openapi(
  createRoute({
    method: "post",
    path: "/api/estimate/refined",
    tags,
    operationId: "refineEstimate",
    summary: "Give counted boards names, without changing a cent",
    request,
    responses: { 200: json(z.strictObject({ input: estimateInput }), "The same estimate with named assemblies"), ...refusals },
  }),
  (c) => {
    const input = c.req.valid("json");
    const outcome = compute(input);
    if (!outcome.ok) return refused(c, "input refused", { errors: engineFaults(outcome.problems) });
    return c.json({ input: refineBoards(input) as z.infer<typeof estimateInput> }, 200);
  },
);

const printed = [
  {
    path: "/api/estimate.pdf",
    operationId: "printEstimate",
    summary: "The estimate as PDF",
    print: estimatePdf,
    name: "estimate",
  },
  {
    path: "/api/bench-sheet.pdf",
    operationId: "printBenchSheet",
    summary: "The bench sheet as PDF",
    print: benchSheetPdf,
    name: "bench-sheet",
  },
  {
    path: "/api/shop-copy.pdf",
    operationId: "printShopCopy",
    summary: "The shop's copy as PDF, with what the job may cost the shop",
    print: shopCopyPdf,
    name: "shop-copy",
    risk: true,
  },
];

for (const { path, operationId, summary, print, name, risk = false } of printed) {
  estimate.openapi(
    createRoute({ method: "post", path, tags, operationId, summary, request, responses: { 200: pdf(summary), ...refusals } }),
    async (c) => {
      const input = c.req.valid("json");
      const outcome = compute(input, { risk });
      if (!outcome.ok) return refused(c, "input refused", { errors: engineFaults(outcome.problems) });
      const logo = input.paperwork && (await logoOf(c.var.db, input.paperwork));
      return pdfAnswer(
        c,
        await print(outcome.sheet, input, logo ? { logo } : {}),
        [name, input.paperwork?.number].filter(Boolean).join("-"),
      ) as never;
    },
  );
}
