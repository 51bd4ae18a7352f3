import type { Adjustment } from "../../estimating/sheet.js";

const names: Readonly<Record<Adjustment["sort"], string>> = {
  discount: "Discount",
  sundries: "Sundries",
  freight: "Freight",
  rush: "Rush charge",
};

export const adjustments = { names, of: (base: string) => `of ${base}` };
