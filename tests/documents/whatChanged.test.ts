import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { type Subject, subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import type { Block, Row, TableBlock } from "../../src/documents/layout/block.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { causesText, rowTitle, signedMark, signedMoney } from "../../src/wording/change.js";
import { lineTitle } from "../../src/wording/line.js";
import { changeList, revision } from "../estimating/agreement/demo.js";
import { runs } from "../setup/runs.js";
import { KEYBOARD, priced } from "./support/cast.js";
import { EARLIER, REVISED } from "./support/revision.js";
import { textsOf } from "./support/texts.js";

const revised = (): Subject => subjectOf(priced(REVISED), REVISED, { earlier: EARLIER });
const tablesOf = (blocks: readonly Block[]): TableBlock[] => blocks.filter((block) => block.is === "table");
const titled = (subject: Subject, title: string): TableBlock | undefined =>
  tablesOf(estimateBlocks(subject)).find(({ columns }) => columns[0]!.title === title);
const WHY = "Why the total changed";
const ROWS = "Work, parts and charges";
const OFFERS = "Options and possible work: own prices, tax included";

/** Minor units of a British amount; what is not printed counts as nothing. */
const minor = (text: string): number => (text === "" ? 0 : Number(text.replaceAll(/[£,.+]/g, "")));
const column = (rows: readonly Row[], fromEnd: number): number[] =>
  rows.map(({ cells }) => minor(cells[cells.length - fromEnd]!.text));
const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);
const isSum = ({ kind }: Row): boolean => kind === "sum" || kind === "total";

describe("what changed since the revision before", () => {
  it("is said once, near the top: after the figures, before the work", () => {
    const texts = textsOf(estimateBlocks(revised()));
    const at = texts.indexOf("What changed since revision 1");
    expect(at).toBeGreaterThan(texts.indexOf("Total, tax included"));
    expect(at).toBeLessThan(texts.indexOf("Work and parts"));
    expect(texts).toContain("revision 1 of 25 November 2026");
    expect(texts.filter((text) => text.startsWith("What changed"))).toHaveLength(1);
  });

  it("is held against what was agreed, where something was: named so, with what is paid, and declining it costs nothing", () => {
    const deposit = priced(REVISED).deposit.amount;
    const agreed = subjectOf(priced(REVISED), REVISED, { earlier: { ...EARLIER, agreed: true, paid: deposit - 100 } });
    const [texts, before] = [textsOf(estimateBlocks(agreed)), textsOf(estimateBlocks(revised()))];
    expect(texts).toContain("What changed since revision 1 as agreed");
    expect(texts).toContain("Total of revision 1 as agreed");
    expect(deposit).toBeGreaterThan(100);
    expect(texts.join("\n")).toContain("of it is paid; £1.00 is still due");
    expect(before).toContain("If you decline after opening");
    expect(texts).not.toContain("If you decline after opening");
    expect(texts.join("\n")).toContain("What you agreed to in revision 1 stands; declining this revision costs nothing.");
  });

  it.each([
    [undefined, "Deposit", "of it is paid and work has begun; the rest is due with the balance", "before work starts"],
    ["de", "Anzahlung", "die Arbeit hat begonnen; der Rest ist mit der Restzahlung fällig", "vor Beginn"],
  ])(
    "says of a deposit that work has begun on what it adds to it, and no more that it comes before (%s)",
    (language, name, rest, before) => {
      const input = { ...REVISED, paperwork: { ...REVISED.paperwork, ...(language && { language }) } };
      const paid = priced(REVISED).deposit.amount - 100;
      const texts = (begun: boolean) => {
        const blocks = estimateBlocks(subjectOf(priced(REVISED), input, { earlier: { ...EARLIER, agreed: true, paid, begun } }));
        return textsOf(blocks).join("\n");
      };
      expect(texts(false).toLowerCase()).toContain(before.toLowerCase());
      expect(texts(true).toLowerCase()).not.toContain(before.toLowerCase());
      expect(texts(true).split("\n")).toContain(name);
      expect(texts(true)).toContain(rest);
    },
  );

  it.each([
    [
      undefined,
      "I decline this revision. What I agreed to in revision 1 stands.",
      "I decline. Please return the unit, closed up",
    ],
    [
      "de",
      "Ich stimme dieser Fassung nicht zu. Was ich in Fassung 1 vereinbart habe, bleibt",
      "Ich lehne ab. Bitte geben Sie das Gerät zurück",
    ],
  ])(
    "offers to decline it as the owner's page does: what was agreed stands, and the unit is not to go back (%s)",
    (language, stands, refit) => {
      const input = { ...REVISED, paperwork: { ...REVISED.paperwork, ...(language && { language }) } };
      for (const detail of ["letter", "every line"] as const) {
        const shown = { ...input, paperwork: { ...input.paperwork, detail } };
        const told = (agreed: boolean) =>
          textsOf(estimateBlocks(subjectOf(priced(shown), shown, { earlier: { ...EARLIER, ...(agreed && { agreed }) } }))).join(
            "\n",
          );
        expect([told(true).includes(stands), told(true).includes(refit)], detail).toEqual([true, false]);
        expect([told(false).includes(stands), told(false).includes(refit)], detail).toEqual([false, true]);
      }
    },
  );

  it("gives money by cause, the total then and the total now, and they add up as printed", () => {
    const { rows } = titled(revised(), WHY)!;
    const causes = rows.filter((row) => !isSum(row));
    const [difference, then, now] = rows.filter(isSum).map(({ cells }) => minor(cells[1]!.text));
    expect(causes.map(({ cells }) => cells[0]!.text)).toEqual(
      changeList(KEYBOARD, REVISED)!.causes.map((cause) => causesText(cause)),
    );
    expect(causes.length).toBeGreaterThan(4);
    expect(sum(column(causes, 1))).toBe(difference);
    expect(then! + difference!).toBe(now);
    expect([then, now]).toEqual([EARLIER.sheet.totals.total, priced(REVISED).totals.total]);
  });

  it("gives each fault found since its reason, its price by itself and what it shares with the others", () => {
    const { rows } = titled(revised(), "Faults found since, each by itself")!;
    const { each, together } = changeList(KEYBOARD, REVISED)!.faults!;
    expect(rows.map(({ cells }) => [cells[0]!.text, minor(cells[1]!.text), minor(cells[2]?.text ?? "")])).toEqual([
      ...each.map(({ name, price, shared }) => [name, price, shared]),
      ["Together, in the total", together, 0],
    ]);
    expect(rows[0]!.cells[0]!.note).toBe("Cracked joints at the transformer lugs.");
    expect(rows[1]!.cells[0]!.note).toBe("The track may be cracked further. Only if it proves necessary.");
  });

  it("names every changed row with its mark, what it was and what it is, and each column adds up", () => {
    const subject = revised();
    const list = changeList(KEYBOARD, REVISED)!;
    const all = [titled(subject, ROWS)!, titled(subject, OFFERS)!].flatMap(({ rows }) => rows).filter((row) => !isSum(row));
    expect(all.map(({ cells }) => [cells[0]!.text, cells[1]!.text, cells[4]!.text])).toEqual(
      list.rows.map((row) => [rowTitle(row, subject.tongue), signedMark(row.mark), signedMoney(row.amount, subject.tongue)]),
    );
    const { rows } = titled(subject, ROWS)!;
    const [withoutTax, tax, total] = rows.slice(-3);
    const above = rows.slice(0, -3);
    expect(above.at(-1)!.cells[0]!.text).toBe("All that did not change");
    for (const fromEnd of [1, 2, 3]) {
      expect(sum(column(above, fromEnd))).toBe(column([withoutTax!], fromEnd)[0]);
      expect(sum(column([withoutTax!, tax!], fromEnd))).toBe(column([total!], fromEnd)[0]);
    }
  });

  it("adds up for any two revisions of a job", () => {
    let compared = 0;
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        const [was, is] = [estimate(before), estimate(after)];
        if (!was.ok || !is.ok) return;
        compared += 1;
        const british = (input: EstimateInput): EstimateInput => ({
          ...input,
          paperwork: { ...input.paperwork, locale: "en-GB" },
        });
        const subject = subjectOf(is.sheet, british(after), { earlier: { input: before, sheet: was.sheet } });
        const why = titled(subject, WHY)!.rows;
        const difference = is.sheet.totals.total - was.sheet.totals.total;
        expect(
          sum(
            column(
              why.filter((row) => !isSum(row)),
              1,
            ),
          ),
        ).toBe(difference);
        const rows = titled(subject, ROWS)?.rows ?? [];
        const last = rows.at(-1);
        if (!last) return;
        expect(column([last], 1)[0]).toBe(difference);
        const above = rows.filter(({ cells }) => !/^(Without tax|Total, tax included)$/.test(cells[0]!.text));
        for (const fromEnd of [1, 2, 3]) expect(sum(column(above, fromEnd))).toBe(column([last], fromEnd)[0]);
      }),
      runs(25),
    );
    expect(compared).toBeGreaterThan(runs(5).numRuns);
  });

  it("gives the reason for what was added, dropped, corrected, found and chosen", () => {
    const texts = textsOf(estimateBlocks(revised()));
    for (const reason of [
      "Found since: cracked joints at the transformer lugs.",
      "The owner keeps the jacks as they are.",
      "Two more under the heat sink. Count 5 instead of 3.",
      "Proved necessary: may have been stressed by the bad smoothing.",
      "Option taken up, or work left out: the old lead is sound but stiff. Now an option, chosen instead of an option, not chosen.",
    ])
      expect(texts).toContain(reason);
    const opened = titled(revised(), ROWS)!.rows.find(({ cells }) => cells[0]!.text === "Open and refit Mains transformer")!;
    expect(opened.cells[0]!.note).toBe("Cracked joints at the transformer lugs.");
  });

  it("says what else is written anew, and which figures beside the total differ", () => {
    const texts = textsOf(estimateBlocks(revised())).join("\n");
    expect(texts).toContain("Written anew: what was found.");
    expect(texts).toMatch(/Never more than £[\d,.]+ instead of £/);
    expect(texts).not.toMatch(/\bDue £/);
    const terms: EstimateInput = { ...REVISED, paperwork: { ...REVISED.paperwork, terms: ["Collect within a week."] } };
    expect(textsOf(estimateBlocks(subjectOf(priced(terms), terms, { earlier: EARLIER }))).join("\n")).toContain(
      "Written anew: what was found and the terms.",
    );
  });

  it("marks exactly the changed rows where they stand, with a sign and a word", () => {
    const subject = revised();
    const list = changeList(KEYBOARD, REVISED)!;
    const { rows } = titled(subject, "Item")!;
    const marked = rows.flatMap(({ cells, mark }) => (mark ? [[cells[0]!.text, mark.text]] : []));
    const expected = subject.sheet.lines.flatMap((line) => {
      const row = list.rows.find(({ is, id }) => is === "line" && id === line.id);
      return row ? [[lineTitle(line), signedMark(row.mark)]] : [];
    });
    const sorted = (pairs: readonly (readonly string[])[]) => pairs.map((pair) => pair.join(" ")).sort();
    expect(sorted(marked)).toEqual(sorted(expected));
    expect(new Set(marked.map(([, text]) => text))).toEqual(new Set(["+\u00a0Added", "\u2260\u00a0Corrected"]));
    expect(rows.map(({ cells }) => cells[0]!.text)).toContain(
      `Discount 5% of ${subject.cash(subject.sheet.totals.linesNet)}: for your patience  +\u00a0Added`,
    );
    const option = titled(subject, "Option")!.rows.find(({ cells }) => cells[0]!.text.includes("Mains lead"));
    expect(option!.mark!.text).toBe(signedMark("corrected"));
    const found = titled(subject, "Work")!.rows.find(({ cells }) => cells[0]!.note === "the track may be cracked further");
    expect(found!.mark!.text).toBe(signedMark("added"));
  });

  it("says so when nothing that is paid for changed", () => {
    const same: EstimateInput = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, revision: 2 } };
    const subject = subjectOf(priced(same), same, { earlier: EARLIER });
    expect(titled(subject, ROWS)).toBeUndefined();
    expect(titled(subject, OFFERS)).toBeUndefined();
    expect(titled(subject, WHY)!.rows.map(({ cells }) => cells[1]!.text)).toEqual([
      "£0.00",
      subject.cash(EARLIER.sheet.totals.total),
      subject.cash(EARLIER.sheet.totals.total),
    ]);
    expect(textsOf(estimateBlocks(subject)).join("\n")).not.toContain("bar at the edge");
  });

  it("compares nothing across currencies, and says so", () => {
    const earlier = { ...EARLIER, sheet: { ...EARLIER.sheet, currency: "EUR" } };
    const blocks = estimateBlocks(subjectOf(priced(REVISED), REVISED, { earlier }));
    expect(textsOf(blocks)).toContain(
      "This estimate replaces revision 1 of 25 November 2026, which was in another currency; the two are not compared.",
    );
    expect(tablesOf(blocks).flatMap(({ rows }) => rows.filter(({ mark }) => mark))).toEqual([]);
  });

  it("does not split a difference that today's prices do not explain", () => {
    const { totals } = EARLIER.sheet;
    const earlier = { ...EARLIER, sheet: { ...EARLIER.sheet, totals: { ...totals, total: totals.total + 700 } } };
    const subject = subjectOf(priced(REVISED), REVISED, { earlier });
    expect(titled(subject, WHY)!.rows.filter((row) => !isSum(row))).toEqual([]);
    expect(textsOf(estimateBlocks(subject)).join("\n")).toContain("the difference is not split by cause");
  });

  it("is left out of a first revision, and the same revisions give the same bytes", async () => {
    const print = async (earlier?: typeof EARLIER) =>
      Buffer.from((await estimatePdf(priced(REVISED), REVISED, { earlier })).bytes);
    const [once, twice, alone] = [await print(EARLIER), await print(EARLIER), await print()];
    expect(once.equals(twice)).toBe(true);
    expect(once.equals(alone)).toBe(false);
    expect(textsOf(estimateBlocks(subjectOf(priced(REVISED), REVISED))).join("\n")).not.toMatch(/What changed|Replaces|Added/);
  });
});
