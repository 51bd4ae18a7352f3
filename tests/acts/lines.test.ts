/** The lines of an estimate as a table, out and in, on the demo estimates (invented) and on one line of every sort. */
import { readFile } from "node:fs/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { importLines, LINES, linesRead } from "../../src/acts/importLines.js";
import { mapColumns } from "../../src/acts/tableRows.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, WorkItem } from "../../src/estimating/input.js";
import { fileRead } from "../../src/http/dataIn/table.js";
import { linesCsv } from "../../src/http/dataOut/lines.js";
import { shop } from "../http/support/shop.js";
import { at, draftOf, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { deskAt, done } from "./support/desk.js";

const DEMO = ["tape-echo", "string-organ-keyboard", "valve-amplifier", "plain-counts"];
const demo = async (name: string): Promise<EstimateInput> =>
  JSON.parse(await readFile(new URL(`../../fixtures/demo/${name}.json`, import.meta.url), "utf8"));

const inspection = ({ operations }: RateBook): string => operations.find(({ sort }) => sort === "inspection")!.id;

let echo: EstimateInput;
beforeAll(async () => {
  const input = await demo("tape-echo");
  const book = input.rateBook as RateBook;
  const service = {
    id: "mains-lead",
    name: "Mains lead, fitted",
    price: 2500,
    work: [{ id: "fit", operation: inspection(book), count: 1 }],
    source: { basis: "demo" as const },
  };
  echo = { ...input, rateBook: { ...book, services: [service] } };
});

/** One of every sort, with texts that a spreadsheet would run, break or trim. */
const sorts = ({ rateBook, kinds = [], map }: EstimateInput): WorkItem[] => {
  const planned = { is: "planned" } as const;
  const [operation, type] = [inspection(rateBook), rateBook.partTypes[0]!.id];
  const replace = rateBook.operations.find(({ sort }) => sort === "replacement")!.id;
  return [
    {
      id: "a",
      operation,
      count: 3,
      certainty: planned,
      assembly: map!.assemblies[0]!.id,
      minutes: { low: 1.5, likely: 2, high: 4.125 },
    },
    {
      id: "b",
      own: { name: "=SUM(A1)", minutes: { low: 5, likely: 10, high: 30 } },
      count: 1,
      certainty: planned,
      reason: "first\nsecond; third",
    },
    {
      ...{
        id: "c",
        own: { name: '\'+ "quoted", and a comma', price: 8001, labourClass: rateBook.labourClasses[0]!.id },
        count: 2,
      },
      ...{ certainty: { is: "optional", chosen: true, refused: 2 } },
    },
    {
      ...{ id: "d", own: { name: "Lift the supply", minutes: { low: 1, likely: 1, high: 1 }, price: 0 }, count: 1 },
      ...{ certainty: { is: "if found", probability: 0.29, group: "supply" } },
    },
    {
      ...{ id: "e", own: { name: "Cells", minutes: { low: 1, likely: 2, high: 3 }, hazards: ["lithium cells", "lead solder"] } },
      count: 1,
      certainty: planned,
    },
    { id: "f", service: "mains-lead", count: 1, certainty: { is: "optional", chosen: false } },
    {
      ...{ id: "g", operation: replace, count: 4, certainty: planned, reason: " kept as it was typed " },
      part: {
        own: {
          ...{
            name: "Voice chip",
            type,
            cost: 9500,
            source: "By post",
            state: "used",
            leadDays: 9,
            packSize: 2,
            minimumPacks: 3,
          },
          shareGood: 0.8125,
        },
      },
    },
    {
      id: "h",
      operation: replace,
      count: 1,
      certainty: planned,
      part: { own: { name: "Its own knob", type, broughtByOwner: true } },
    },
    {
      ...{ id: "i", operation: replace, count: 1, certainty: planned, part: { kind: kinds[0]!.id } },
      partPrice: { cost: 123, reason: "only one left", source: "Market stall", leadDays: 21 },
      original: { type, value: "2u2", ratedVolts: 63, workingVolts: 12.5, tolerancePercent: 20, audioGrade: false },
    },
    { id: "j", operation: replace, count: 0, certainty: { is: "if found", probability: 1 }, part: { type } },
  ];
};

const tableOf = (text: string) => {
  const read = fileRead({ text });
  if (!read.ok) throw new Error(read.why.join("; "));
  return { table: read.table, mapping: mapColumns(LINES, read.table, undefined, {}, ".") };
};
const into = (text: string, input: EstimateInput, { kinds = [], offers = [], exchange = [] }: Partial<EstimateInput> = input) => {
  const { table, mapping } = tableOf(text);
  return linesRead(table, mapping, input, { kinds, offers, exchange });
};

describe("lines as CSV", () => {
  it("come back as they went out: into nothing the same lines, into their own estimate no change", async () => {
    const inputs = [{ ...echo, items: sorts(echo) }, ...(await Promise.all(DEMO.map(demo)))];
    const outcome = estimate(inputs[0]!);
    expect(outcome.ok ? [] : outcome.problems).toEqual([]);
    for (const input of inputs) {
      const text = linesCsv(input);
      const anew = into(text, { ...input, items: [] });
      expect(anew.rows.filter(({ is }) => is !== "new")).toEqual([]);
      expect(anew.input.items).toEqual(input.items);
      const again = into(text, input);
      expect(again.input).toBe(input);
      expect(new Set(again.rows.map(({ is }) => is))).toEqual(new Set(["same"]));
    }
  });

  it("take with them what the catalogue knows of their parts", () => {
    const { kinds = [], offers = [], ...rest } = { ...echo, items: sorts(echo).filter(({ id }) => id === "i") };
    const bare = { ...rest, items: [] };
    const { input } = into(linesCsv({ ...rest, kinds, offers }), bare, { kinds, offers });
    expect(input.kinds).toEqual([kinds[0]]);
    expect(input.offers).toEqual(offers.filter(({ kind }) => kind === kinds[0]!.id));
  });

  it("say a line anew by its id, an empty cell emptied and a column that is not there left alone", () => {
    const before = { ...echo, items: sorts(echo) };
    const { input, rows } = into("id,own,work,minutes,minutesLow,minutesHigh,count\r\na,Look it over,,20,,,1\r\n", before);
    expect(rows).toMatchObject([{ is: "changed", name: "Look it over" }]);
    const { minutes: _, operation: __, ...kept } = before.items[0]!;
    expect(input.items[0]).toEqual({
      ...kept,
      own: { name: "Look it over", minutes: { low: 20, likely: 20, high: 20 } },
      count: 1,
    });
    expect(input.items.slice(1)).toEqual(before.items.slice(1));
  });

  it("name what is wrong by row and column, and change nothing then", () => {
    const { input, rows, changes } = into(
      [
        "work,own,where,count,part,price,certainty,chance,currency,minutes",
        "Replace a lead,,,1,,,,,,",
        ",Look it over,Nowhere board,1,,,,,,10",
        ",Look it over,,1,,,if found,,,10",
        ",Look it over,,1.5,,,,,,10",
        ",,,1,,,,,,",
        ",Look it over,,1,,,,,USD,10",
        ",Look it over,,1,,,,25,,10",
        ",Look it over,,1,,,,,,",
        ",Good work,,1,,12.50,,,,",
        ",Look it over,Nowhere board,1,,,if found,,,10",
      ].join("\r\n"),
      echo,
    );
    expect(changes).toBe(0);
    expect(input).toBe(echo);
    expect(rows.map(({ row, faults }) => [row, faults.map(({ column }) => column)])).toEqual([
      [2, ["work"]],
      [3, ["where"]],
      [4, ["chance"]],
      [5, ["count"]],
      [6, ["work"]],
      [7, ["currency"]],
      [8, ["chance"]],
      [9, []],
      [10, []],
      [11, ["where", "chance"]],
    ]);
    expect(rows[0]!.faults[0]!.why).toMatch(
      /^Work: 'Replace a lead' is not on a list: say it in your own words.* or choose one of /,
    );
    expect(rows[5]!.faults[0]!.why).toBe("Currency is USD; this estimate is in GBP.");
  });

  it("hear the engine's word on each line, such as own work without minutes or a price", () => {
    const { rows, changes } = into(",own,count\r\n,Look it over,1\r\n,Good work,1\r\n".replace(",own", "minutes,own"), echo);
    expect(changes).toBe(0);
    expect(rows.map(({ is, faults }) => [is, faults.map(({ column }) => column)])).toEqual([
      ["wrong", ["minutes"]],
      ["wrong", ["minutes"]],
    ]);
  });

  it("go into an open draft all at once, a second time change nothing, and never into what was issued", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const text = "own;minutes;count\r\nTest the memory battery under load;15;1\r\nListen to it;5,5;2\r\n";
    const run = (carryOut: boolean) =>
      done(importLines, deskAt(db, at(1)), { text, mark: ",", carryOut }, { estimate: draft.id, read: fileRead });
    expect(await run(false)).toMatchObject({ ok: true, answer: { changes: 2, written: 0 } });
    expect((await draftOf(db, TAPE_ECHO)).version).toBe(draft.version);
    expect(await run(true)).toMatchObject({ ok: true, answer: { changes: 2, written: 2 } });
    const after = await draftOf(db, TAPE_ECHO);
    expect(after.input.items.slice(draft.input.items.length)).toMatchObject([
      { own: { name: "Test the memory battery under load", minutes: { likely: 15 } }, count: 1 },
      { own: { name: "Listen to it", minutes: { likely: 5.5 } }, count: 2 },
    ]);
    expect(after.sheet!.totals.total).toBeGreaterThan(draft.sheet!.totals.total);
    expect(await run(true)).toMatchObject({ ok: true, answer: { changes: 0, written: 0 } });
    await issued(db, draft.id, at(2));
    expect(await run(true)).toMatchObject({ ok: false, refusal: { is: "estimate issued" } });
  });
});
