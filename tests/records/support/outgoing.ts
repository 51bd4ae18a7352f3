import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { Paperwork } from "../../../src/estimating/input.js";
import type { Outgoing } from "../../../src/records/issue.js";

export const PAPERWORK: Paperwork = {
  shop: { name: "Larkholt Bench" },
  owner: { name: "Ottilie Vantongeren" },
  number: "J-2026-0001",
  revision: 1,
  date: "2026-11-25",
};

/** What a draft goes out with, printed for real. */
export const outgoing = (changed: Partial<Outgoing> = {}): Outgoing => ({
  by: "Wilhelmina Stråhle",
  paperwork: PAPERWORK,
  link: { deliveredTo: "on paper", expiresAt: "2027-02-23T09:00:00.000Z" },
  address: (fragment) => `https://shop.example/o#${fragment}`,
  print: async (sheet, input) => (await estimatePdf(sheet, input)).bytes,
  ...changed,
});
