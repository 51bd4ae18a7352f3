/** What is refused or read, and how it is told: of answers, of the log, of tables and of lines. The demo shop (invented). */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { eraseForSure } from "../../src/acts/erasure/eraseOwner.js";
import { COLUMNS, offerRows, rateRows } from "../../src/acts/importRows.js";
import { namesIn, namesWrong, rowWrong } from "../../src/acts/line.js";
import { makeOwnerLink } from "../../src/acts/makeOwnerLink.js";
import { PARTS_LIST, readPartsList } from "../../src/acts/partsList.js";
import { removePhoto } from "../../src/acts/photos.js";
import { recordAnswer } from "../../src/acts/recordAnswer.js";
import { changeHook } from "../../src/acts/sendHook.js";
import { standings } from "../../src/acts/standing.js";
import { mapColumns } from "../../src/acts/tableRows.js";
import type { EstimateInput, RateBook } from "../../src/estimating/input.js";
import { readTable } from "../../src/http/dataIn/table.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { HAND } from "../records/support/closed.js";
import { at, draftOf, given, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { log, stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const rateBook = JSON.parse(readFileSync("fixtures/demo/rate-book.json", "utf8")) as RateBook;
const table = (text: string) => {
  const read = readTable(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read;
};
const KEPT = { createdAt: "", updatedAt: "", version: 1 };

describe("an answer", () => {
  it("names what the revision has: an option to take, or work that can be left out", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const said = async (set: object) => answer(db, "a", await given(db, record.id, { answer: "part agreed", ...set }), at(2));
    expect(await said({ chosen: ["no-such"] })).toMatchObject({
      ...{ is: "record unknown", pointers: ["/chosen"], detail: "'no-such' is not an option of this revision." },
    });
    expect(await said({ struck: ["no-such"] })).toMatchObject({
      ...{ is: "record unknown", pointers: ["/struck"], detail: "'no-such' is not work that can be left out of this revision." },
    });
  });

  it("was spoken from the day of the issue to today, and says on which side of these it was not", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const spoken = (date: string) =>
      done(
        recordAnswer,
        deskAt(db, at(2 * 24 * 60)),
        {
          ...{ answer: "agreed", by: "Ottilie Vantongeren", channel: "telephone", recordedBy: HAND },
          ...{ amount: record.sheet!.totals.total, spoken: { date, time: "09:02" } },
          chosen: record.sheet!.options.flatMap(({ id, chosen }) => (chosen ? [id] : [])),
        } as never,
        { estimate: record.id },
      );
    const why = async (date: string) => {
      const outcome = await spoken(date);
      return outcome.ok ? undefined : outcome.refusal.errors;
    };
    const wrong = (detail: RegExp) => [
      { pointer: "/spoken/date", name: "said on no such day", detail: expect.stringMatching(detail) },
    ];
    expect(await why("2026-11-28")).toEqual(
      wrong(/28 November 2026, which is after today, 27 November 2026; give the day it was said\.$/),
    );
    expect(await why("2026-11-24")).toEqual(
      wrong(/24 November 2026, which is before the revision was issued, 25 November 2026; give the day it was said\.$/),
    );
    expect(await why("2026-11-27")).toBeUndefined();
  });

  it("was spoken on the day of the issue at its hour or later, by the shop's clock", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const { settings, issues } = await stands(db, TAPE_ECHO);
    // In winter.
    expect(settings.timeZone).toBe("Europe/London");
    const hour = issues.at(-1)!.at.slice(11, 16);
    const asked = (answer: "agreed" | "declined", time: string) =>
      done(
        recordAnswer,
        deskAt(db, at(2 * 24 * 60)),
        {
          ...{ answer, by: "Ottilie Vantongeren", channel: "telephone", recordedBy: HAND, spoken: { date: "2026-11-25", time } },
          ...(answer === "agreed" && { amount: record.sheet!.totals.total }),
          chosen: record.sheet!.options.flatMap(({ id, chosen }) => (chosen ? [id] : [])),
        } as never,
        { estimate: record.id },
      );
    const early = `${String(Number(hour.slice(0, 2)) - 1).padStart(2, "0")}:59`;
    const detail = `Time of the answer is ${early}, which is before the revision was issued that day, ${hour}; give the time it was said.`;
    for (const answer of ["agreed", "declined"] as const)
      expect(await asked(answer, early)).toMatchObject({
        refusal: { errors: [{ pointer: "/spoken/time", name: "said on no such day", detail }] },
      });
    expect(await asked("agreed", hour)).toMatchObject({ ok: true });
  });

  it("that declines by telephone keeps the day or the hour it was said, and needs neither", async () => {
    const spokenOf = async (spoken: object | undefined) => {
      const { db } = await shop();
      const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
      const value = { answer: "declined", by: "Ottilie Vantongeren", channel: "telephone", recordedBy: HAND, spoken };
      const outcome = await done(recordAnswer, deskAt(db, at(2)), value as never, { estimate: record.id });
      if (!outcome.ok || "replayed" in outcome) throw new Error(JSON.stringify(outcome));
      return (outcome.answer as { spoken?: object }).spoken;
    };
    expect(await spokenOf(undefined)).toBeUndefined();
    expect(await spokenOf({ numberCalled: "0" })).toBeUndefined();
    expect(await spokenOf({ time: "09:01" })).toMatchObject({ time: "09:01", receiver: HAND });
    expect(await spokenOf({ date: "2026-11-25" })).toMatchObject({ date: "2026-11-25", authoriser: "Ottilie Vantongeren" });
  });
});

it("what is not there says so: a link's estimate, a photo, and who erases an owner", async () => {
  const { db } = await shop();
  const link = { by: HAND, deliveredTo: "a telephone number" };
  expect(await done(makeOwnerLink, deskAt(db, at(1)), link, { estimate: "none", reachable: true })).toMatchObject({
    refusal: { is: "not found", detail: "There is no such estimate." },
  });
  for (const job of [TAPE_ECHO, "nowhere"])
    expect(await done(removePhoto, deskAt(db, at(1)), {}, { job, photo: "none" })).toMatchObject({
      refusal: { is: "not found", detail: "There is no such photo." },
    });
  const erase = async (said: object) => {
    const outcome = await done(eraseForSure, deskAt(db, at(1)), said as never, { owner: "none" });
    return outcome.ok ? [] : (outcome.refusal.errors ?? []).map(({ pointer, detail }) => [pointer, detail]);
  };
  const [who, sure] = [
    ["/by", "Give your name: the record says who erased it."],
    ["/sure", "Tick the box: what is erased cannot be brought back."],
  ];
  expect(await erase({})).toEqual([who, sure]);
  expect(await erase({ sure: true })).toEqual([who]);
  expect(await erase({ by: HAND })).toEqual([sure]);
});

it("a send hook that someone changed meanwhile is shown as it stands, without its secret", async () => {
  const { db } = await shop();
  const change = (url: string | undefined, seen: number[]) =>
    done(changeHook, deskAt(db, at(1)), { ...(url && { url }) }, { seen });
  expect(await change("https://shop.example/send", [0])).toMatchObject({ ok: true, answer: { version: 1 } });
  const outcome = await change(undefined, [0]);
  expect(outcome).toMatchObject({ ok: false, refusal: { is: "version moved" } });
  expect(!outcome.ok && outcome.refusal.current).toEqual({ url: "https://shop.example/send", version: 1 });
  expect(await change(undefined, [1])).toMatchObject({ ok: true });
  const off = await change("https://shop.example/send", [1]);
  expect(!off.ok && off.refusal.current).toEqual({ version: 2 });
});

it("no job asked for is none told of", async () => {
  const { db } = await shop();
  expect([...(await standings(db, [], new Date(at(1))))]).toEqual([]);
});

describe("an entry of the log", () => {
  it("in own words is refused at the field that is wrong, be it the words, the part or the time", async () => {
    const { db } = await agreedShop();
    const wrong = async (entry: object) => {
      const outcome = await log(db, { job: TAPE_ECHO, when: at(3) }, entry);
      return outcome.ok ? [] : (outcome.refusal.errors ?? []).map(({ pointer }) => pointer);
    };
    const own = { own: "Glue the lid" };
    expect(await wrong({ ...own, startedAt: at(2), endedAt: at(1) })).toEqual(["/endedAt"]);
    expect(await wrong({ ...own, minutes: 5, labourClass: "nobody" })).toEqual(["/labourClass"]);
    expect(await wrong({ item: "w01", ownPart: "A knob", paidPrice: 100, partCount: -1 })).toEqual(["/partCount"]);
  });
});

describe("a table of offers", () => {
  const kinds = new Map([["k", { id: "k", name: "Film 100 nF", type: rateBook.partTypes[0]!.id, ...KEPT }]]);
  const offer = {
    ...{ id: "o", kind: "k", source: "Quillmere", on: "2026-11-20", price: 100, currency: rateBook.currency },
    ...{ packSize: 1, leadDays: 4, state: "new" as const, ...KEPT },
  };
  const rows = (text: string, kept: readonly (typeof offer)[] = []) => {
    const read = table(text);
    return offerRows(read, mapColumns(COLUMNS.offers, read, undefined, {}, "."), {
      ...{ rateBook, kinds, kept, withdrawn: new Set<string>(), day: "2026-11-25", rates: [], fresh: () => "new" },
    });
  };
  const HEAD = "Part kind;Source;On;Price;Pack size;Lead days;State\n";

  it("tells each row by its part's name and its source", () => {
    const { rows: told } = rows(`${HEAD}k;Quillmere;2026-11-20;1.00;1;4;new\nnone;;2026-11-20;1.00;1;4;new\n`);
    expect(told.map(({ name, is }) => [name, is])).toEqual([
      ["Film 100 nF, Quillmere", "new"],
      ["none", "wrong"],
    ]);
  });

  it("adds nothing that is on record word for word, and what differs in anything", () => {
    const is = (row: string) => rows(HEAD + row, [offer]).rows[0]!.is;
    expect(is("k;Quillmere;2026-11-20;1.00;1;4;new\n")).toBe("same");
    for (const other of [
      "k;Mottram;2026-11-20;1.00;1;4;new\n",
      "k;Quillmere;2026-11-21;1.00;1;4;new\n",
      "k;Quillmere;2026-11-20;1.01;1;4;new\n",
      "k;Quillmere;2026-11-20;1.00;2;4;new\n",
      "k;Quillmere;2026-11-20;1.00;1;5;new\n",
      "k;Quillmere;2026-11-20;1.00;1;4;used\n",
    ])
      expect(is(other)).toBe("new");
  });
});

it("a table of exchange rates adds nothing that is on record word for word, and what differs in anything", () => {
  const kept = { id: "r", currency: "JPY", rate: "0.0052", on: "2026-11-20", source: "The bank", into: "GBP", ...KEPT };
  const is = (row: string) => {
    const read = table(`Currency;Rate;On;Source\n${row}\n`);
    return rateRows(read, mapColumns(COLUMNS["exchange-rates"], read, undefined, {}, "."), {
      ...{ rateBook, kept: [kept], withdrawn: new Set<string>(), day: "2026-11-25", fresh: () => "new" },
    }).rows.map(({ is, name }) => [is, name])[0];
  };
  expect(is("JPY;0.0052;2026-11-20;The bank")).toEqual(["same", "JPY, 2026-11-20"]);
  expect(is("USD;0.0052;2026-11-20;The bank")).toEqual(["new", "USD, 2026-11-20"]);
  expect(is("JPY;0.0053;2026-11-20;The bank")![0]).toBe("new");
  expect(is("JPY;0.0052;2026-11-21;The bank")![0]).toBe("new");
  expect(is("JPY;0.0052;2026-11-20;The post")![0]).toBe("new");
});

describe("a parts list", () => {
  const capacitor = rateBook.partTypes.find(({ family }) => family === "capacitor")!;
  const plain = rateBook.partTypes.find(({ family, id }) => family !== "capacitor" && id !== rateBook.partTypes[0]!.id)!;
  const board = (id: string, counts: object) => ({
    ...{ id, name: `Board ${id}`, sort: "board", counts, access: { by: "fasteners", fasteners: [] } },
  });
  const model = {
    ...{ id: "m", ...KEPT, maker: "Threnwick", model: "Cadence 3" },
    map: { assemblies: [board("first", { [capacitor.id]: 9 }), board("a", { [capacitor.id]: 2 })] },
  } as never;
  const kind = { id: "k", name: "Film as it is called", type: capacitor.id, value: "100n", ratedVolts: 63, ...KEPT };
  const listed = (rows: string) => {
    const read = table(`Ref;Value;Type;Volts\n${rows}`);
    return readPartsList(read, mapColumns(PARTS_LIST, read, undefined, {}, "."), {
      ...{ rateBook, kinds: new Map([["k", kind]]), model, assembly: "a", addKinds: true },
    });
  };

  it("tells what the counts of its own assembly were, by the part type's name", () => {
    const { counts } = listed(`C1;100n;${capacitor.name};\nC2;100n;${capacitor.name};\nC3;100n;${capacitor.name};\n`);
    expect(counts).toEqual([{ type: capacitor.id, name: capacitor.name, before: 2, after: 3 }]);
    expect(listed(`X1;;${plain.name};\n`).counts).toEqual([{ type: plain.id, name: plain.name, before: 0, after: 1 }]);
  });

  it("tells each row by its designators and its value, and asks for a type where none is stated or known of such a part", () => {
    const { rows } = listed(`C1;100n;${capacitor.name};\nC2;;${capacitor.name};\nX7;;;\n`);
    expect(rows.map(({ name }) => name)).toEqual([
      expect.stringMatching(/^C1, 100n → 1 × /),
      expect.stringMatching(/^C2 → 1 × /),
      "X7",
    ]);
    expect(rows[2]!.faults).toEqual([expect.objectContaining({ why: "Say which part type 'X' is." })]);
    expect(rows.slice(0, 2).flatMap(({ faults }) => faults)).toEqual([]);
    expect(listed("C1;100n;;\n").rows[0]!.faults).toEqual([]);
  });

  it("knows a kind by its value however it is written, rated at least as high, and adds one where none is", () => {
    const added = (row: string) => listed(`${row}\n`).changes?.kinds.map(({ value }) => value.name);
    expect(added(`C1;100n;${capacitor.name};`)).toEqual([]);
    expect(added(`C1;0u1;${capacitor.name};63`)).toEqual([]);
    expect(added(`C1;100n;${capacitor.name};100`)).toEqual([`${capacitor.name} 100n 100 V`]);
    expect(added(`C1;220n;${capacitor.name};`)).toEqual([`${capacitor.name} 220n`]);
    expect(listed(`C1;0u1;${capacitor.name};63\n`).rows[0]!.name).toContain("(Film as it is called)");
  });
});

describe("a line", () => {
  const input = JSON.parse(readFileSync("fixtures/demo/tape-echo.json", "utf8")) as EstimateInput;
  const names = namesIn(input, []);
  const work = names.work[0]!.name;

  it("loses nothing that its sort does not say: each such field is told", () => {
    const told = (more: object) =>
      rowWrong({ id: "x", work, count: 1, ...more } as never, names, input.currency).map(({ pointer, detail }) => [
        pointer,
        /(is of|stands beside) .*?[.;]/.exec(detail)?.[0],
      ]);
    expect(told({})).toEqual([]);
    const of = (more: object) => told(more).map(([pointer, why]) => `${pointer} ${why}`);
    expect(of({ chosen: true })).toEqual([expect.stringMatching(/^\/chosen is of an option/)]);
    expect(of({ refused: 2 })).toEqual([expect.stringMatching(/^\/refused is of an option/)]);
    expect(of({ chance: 0.5 })).toEqual([expect.stringMatching(/^\/chance is of work that may be found/)]);
    expect(of({ group: "supply" })).toEqual([expect.stringMatching(/^\/group is of work that may be found, and of options/)]);
    expect(of({ minutesLow: 3 })).toEqual([expect.stringMatching(/^\/minutesLow stands beside likely minutes/)]);
    expect(of({ minutesHigh: 3 })).toEqual([expect.stringMatching(/^\/minutesHigh stands beside likely minutes/)]);
    expect(of({ price: 300 })).toEqual([expect.stringMatching(/^\/price is of work in your own words/)]);
    expect(of({ partSource: "By post" })).toEqual([expect.stringMatching(/^\/partSource stands beside what a part costs/)]);
    expect(of({ partReason: "the last" })).toEqual([expect.stringMatching(/^\/partReason is of another price for a known part/)]);
  });

  it("names work or a part: space alone is neither, whichever field it stands in", () => {
    const missing = [{ pointer: "/work", name: "key missing", detail: expect.stringMatching(/^Work is missing; name the work/) }];
    for (const key of ["work", "part", "own", "ownPart"]) {
      expect(namesWrong(names, { [key]: "  " })).toEqual(missing);
      expect(namesWrong(names, { [key]: key === "part" ? "no such" : work }).map(({ pointer }) => pointer)).toEqual(
        key === "part" ? ["/part"] : [],
      );
    }
  });
});
