/** The final account as an owner reads it back: pdftotext (poppler), and qpdf's word on the file. */

import { expect, it } from "vitest";
import { finalAccountPdf } from "../../../src/documents/finalAccountPdf.js";
import { finalAccount } from "../../../src/estimating/closeout/account/finalAccount.js";
import type { AccountTerms } from "../../../src/estimating/closeout/account/terms.js";
import type { JobDone } from "../../../src/estimating/closeout/jobDone.js";
import type { PartUsed, TimeEntry } from "../../../src/estimating/closeout/log/workLog.js";
import type { EstimateInput, Paperwork } from "../../../src/estimating/input.js";
import { partOf } from "../../../src/estimating/resolve.js";
import { money } from "../../../src/wording/figures.js";
import { priced, TAPE_ECHO } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const minor = (text: string): number => {
  const [, sign, figure] = /(-?)£([\d,]+\.\d\d)(?:\s+[A-Z])?$/.exec(text.trimEnd()) ?? [];
  if (!figure) throw new Error(`No amount at the end of: ${text}`);
  return (sign ? -1 : 1) * Number(figure.replaceAll(/[,.]/g, ""));
};
const amountsIn = (lines: readonly string[]) =>
  lines.flatMap((line) => (/£[\d,]+\.\d\d(\s+[A-Z])?$/.test(line.trimEnd()) ? [minor(line)] : []));
const sum = (amounts: readonly number[]) => amounts.reduce((total, amount) => total + amount, 0);

/** Three times the likely time, so that the limit counts. */
async function accountOf(
  basis: AccountTerms["basis"],
  input: EstimateInput,
  given: Partial<JobDone> = {},
  papers: Paperwork = {},
) {
  const sheet = priced(input);
  const time = sheet.lines.flatMap(({ id, minutes = 0 }): TimeEntry[] =>
    id.startsWith("labour:") ? [{ id, work: { is: "item", id: id.slice(7) }, person: "Tamsin", minutes: minutes * 3 }] : [],
  );
  const taker = input.items.find(({ part, count, certainty }) => part && count > 2 && certainty.is === "planned")!;
  const used = (id: string, count: number, state: PartUsed["state"]): PartUsed => ({
    ...{ id, item: taker.id, part: partOf(taker)!, count, paid: { price: 120, per: 1 }, state },
  });
  const log = { time, parts: [used("a", taker.count - 1, "new"), used("b", 1, "reconditioned")] };
  const result = finalAccount(
    { revisions: [{ revision: 1, input, sheet }], found: [], log, done: {}, ...given },
    {
      basis,
      on: "2026-12-04",
      payments: [
        { on: "2026-11-25", amount: 4500, for: "diagnosis fee" },
        { on: "2026-11-26", amount: 8084, for: "deposit" },
      ],
      warrantyDays: 90,
      oldParts: { is: "kept", why: "exchange part" },
    },
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const { bytes } = await finalAccountPdf(result.account, {
    input: { ...input, paperwork: { ...input.paperwork, ...papers } },
    sheet,
  });
  return { account: result.account, paper: await Paper.of(bytes), bytes, sheet };
}

it.each(["fixed price", "time and parts"] as const)("adds up from its lines to what is due: %s", async (basis) => {
  const { account, paper } = await accountOf(basis, TAPE_ECHO);
  const lines = (await paper.pages()).join("\n").split("\n");
  const at = (label: RegExp) => lines.findIndex((line) => label.test(line));
  const [item, lineSum, untaxed, total, due] = [
    ...[/^\s*Item\s+Count/, /^\s*Sum of the lines/, /^\s*Without tax/],
    ...[/^\s*Total, tax included\s+£/, /^\s*Still to pay\s+£/],
  ].map(at) as [number, number, number, number, number];
  expect(sum(amountsIn(lines.slice(item, lineSum)))).toBe(minor(lines[lineSum]!));
  expect(sum(amountsIn(lines.slice(lineSum, untaxed)))).toBe(minor(lines[untaxed]!));
  expect(sum(amountsIn(lines.slice(untaxed, total)))).toBe(minor(lines[total]!));
  expect(sum(amountsIn(lines.slice(total, due)))).toBe(minor(lines[due]!));
  expect(minor(lines[due]!)).toBe(account.totals.due);
  const text = await paper.text();
  for (const said of [
    "Diagnosis fee received on 25 November 2026",
    "Deposit received on 26 November 2026",
    "reconditioned",
    "Rate per hour",
    "Warranty: 90 days, until 4 March 2027.",
    "The parts that were replaced are not returned: exchange part.",
  ])
    expect(text).toContain(said);
  expect(text.includes("Above the limit agreed, not charged")).toBe(basis === "time and parts");
  expect(await paper.check()).toContain("No syntax or stream encoding errors");
});

it("says what the profile has the bill say, shows nothing of margins, and is the same bytes again", async () => {
  const input = { ...TAPE_ECHO, policy: { ...TAPE_ECHO.policy, profile: "ca-qc" } };
  const { paper, bytes } = await accountOf("fixed price", input);
  const text = await paper.text();
  expect(text).toContain("Parts and labour carry a warranty of 3 months");
  expect(text).toContain("check your local law");
  expect(text).not.toMatch(/margin|earned|cost the shop/i);
  expect(Buffer.compare(bytes, (await accountOf("fixed price", input)).bytes)).toBe(0);
});

it.each([
  [
    "en",
    /Agreed\s+£/,
    "Not done: ",
    "From the agreed total to this one",
    /Timed at the bench: .* reckoned at its planned time, /,
  ],
  [
    "de",
    /Vereinbart\s+£/,
    "Nicht ausgeführt: ",
    "Vom vereinbarten zum endgültigen Betrag",
    /Erfasste Arbeitszeit: .* mit der geplanten Zeit angesetzt, /,
  ],
] as const)(
  "explains on paper how the agreed total became the one billed, and what was timed of it: %s",
  async (language, agreed, not, heading, timed) => {
    const planned = TAPE_ECHO.items.filter(({ certainty, count }) => certainty.is === "planned" && count > 0);
    const [left, untimed] = [planned.at(-1)!, planned.at(-2)!];
    const log = {
      time: [{ id: "t", work: { is: "item", id: planned[0]!.id }, person: "Tamsin", minutes: 30 }],
      parts: [],
    } as const;
    const given = { done: { [left.id]: 0 }, untimed: { [untimed.id]: "done" }, log } as const;
    const { account, paper, sheet } = await accountOf("fixed price", TAPE_ECHO, given, { language });
    const text = await paper.text();
    expect(text).toContain(heading);
    expect(text).toContain(not);
    expect(text).toMatch(timed);
    // No time stands beside a rate and an amount that is not their product.
    for (const { ratePerHour, amount, minutes } of account.hours)
      if (Math.round((ratePerHour * minutes) / 60) !== amount)
        expect(text).not.toContain(money(amount, { locale: "en-GB", currency: "GBP" }));
    const lines = (await paper.pages()).join("\n").split("\n");
    const first = lines.findIndex((line) => agreed.test(line));
    const end = lines.findIndex((line, at) => at > first && /^\s*(Total|Gesamtbetrag)/.test(line));
    expect(minor(lines[first]!)).toBe(sheet.totals.total);
    expect(sum(amountsIn(lines.slice(first, end)))).toBe(minor(lines[end]!));
    expect(minor(lines[end]!)).toBe(account.totals.total);
  },
);
