import { describe, expect, it } from "vitest";
import {
  afterAnswer,
  draftAfterAnswer,
  pricedSet,
  unknownChoices,
  withChoices,
  withFound,
} from "../../../src/estimating/agreement/choices.js";
import { unagreed } from "../../../src/estimating/agreement/workLog.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { Certainty, EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { item, job, on } from "../cast/organ.js";
import { DEMO, ORGAN, sheetOf } from "./demo.js";

const option = (chosen = false, group?: string): { certainty: Certainty } => ({
  certainty: { is: "optional", chosen, ...(group && { group }) },
});
const total = (input: EstimateInput, chosen: readonly string[]): number => {
  const outcome = estimate(withChoices(input, chosen));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet.totals.total;
};

describe("agreeing to part of the options", () => {
  /** Panel and loom come off with the lid in front: 12.00 + 9.00 + 15.00; cleaning the one or the other 7.00. */
  const behindOnePanel = job({ items: [item("whole"), on("panel", "a", option()), on("loom", "b", option())] });

  it("prices the set as a set: two options behind one panel share its opening", () => {
    const base = total(behindOnePanel, []);
    const each = sheetOf(behindOnePanel).options.map(({ price }) => price);
    expect(each).toEqual([4300, 4300]);
    expect(total(behindOnePanel, ["a"]) - base).toBe(4300);
    expect(total(behindOnePanel, ["b"]) - base).toBe(4300);
    expect(total(behindOnePanel, ["a", "b"]) - base).toBe(3600 + 700 + 700);
    expect(total(behindOnePanel, ["a", "b"]) - base).toBeLessThan(each[0]! + each[1]!);
  });

  it("takes the options of a group together, and leaves what is not named, chosen or not", () => {
    const grouped = job({
      items: [on("top", "a", option(true, "both")), on("low", "b", option(true, "both")), on("back", "c", option(true))],
    });
    const chosen = (input: EstimateInput) =>
      input.items.flatMap(({ id, certainty }) => (certainty.is === "optional" && certainty.chosen ? [id] : []));
    expect(chosen(withChoices(grouped, ["both"]))).toEqual(["a", "b"]);
    expect(chosen(withChoices(grouped, ["c"]))).toEqual(["c"]);
    expect(chosen(withChoices(grouped, []))).toEqual([]);
  });

  it("with the options chosen already is the sheet as issued", () => {
    for (const input of DEMO) {
      const chosen = sheetOf(input)
        .options.filter((each) => each.chosen)
        .map(({ id }) => id);
      expect(estimate(withChoices(input, chosen))).toEqual({ ok: true, sheet: sheetOf(input) });
    }
  });

  it("names the ids that are no option, such as planned work or one of another revision", () => {
    expect(unknownChoices(ORGAN, ["new mains lead", "w33", "w01", "gone", "gone"])).toEqual(["w01", "gone"]);
    expect(withChoices(ORGAN, ["gone"])).toEqual(withChoices(ORGAN, []));
  });

  it("turns possible work into planned when it is found, by group", () => {
    const found = withFound(ORGAN, ["spill damage"]);
    expect(found.items.filter((each, at) => each !== ORGAN.items[at]).map(({ id, certainty }) => [id, certainty.is])).toEqual([
      ["w13", "planned"],
      ["w14", "planned"],
    ]);
  });
});

describe("work that no agreement covers", () => {
  const agreed = withChoices(
    job({
      items: [on("top", "a"), on("low", "b", option()), on("back", "c", { certainty: { is: "if found", probability: 0.5 } })],
    }),
    [],
  );
  const current = (change: (items: readonly WorkItem[]) => readonly WorkItem[]) => ({ ...agreed, items: change(agreed.items) });

  it("is all of it before the owner answers", () => {
    expect(unagreed(agreed, undefined).map(({ why }) => why)).toEqual(["nothing agreed", "nothing agreed", "nothing agreed"]);
  });

  it("is an option not chosen; possible work is agreed in advance", () => {
    expect(unagreed(agreed, agreed)).toEqual([{ id: "b", why: "option not chosen" }]);
    expect(unagreed(withFound(agreed, ["c"]), withChoices(agreed, ["b"]))).toEqual([]);
  });

  it("is what was added, counted up or changed since", () => {
    const later = current((items) => [{ ...items[0]!, count: 2 }, { ...items[2]!, operation: "adjust" }, on("rail", "d")]);
    expect(unagreed(later, agreed)).toEqual([
      { id: "a", why: "more than agreed" },
      { id: "c", why: "changed since" },
      { id: "d", why: "not in what was agreed" },
    ]);
  });

  it("is what the owner left out, and says so", () => {
    const whole = current((items) => [...items, on("rail", "d")]);
    expect(unagreed(whole, agreed, ["d"])).toContainEqual({ id: "d", why: "left out by the owner" });
  });

  it("is nothing where the count went down, the reason changed or a line was dropped", () => {
    const fewer = { ...agreed, items: [{ ...agreed.items[0]!, count: 0, reason: "one was sound" }] };
    expect(unagreed(fewer, agreed)).toEqual([]);
  });
});

describe("the work of the next revision", () => {
  const set = { revision: 1, declined: false, chosen: [] as string[], struck: [] as string[] };
  const found: { certainty: Certainty } = { certainty: { is: "if found", probability: 0.3, group: "spill" } };
  const items = [on("panel", "a"), on("loom", "b", found), on("top", "c", option(true)), on("low", "d", option(false, "pair"))];
  const certainties = (of: readonly WorkItem[]) => Object.fromEntries(of.map(({ id, certainty }) => [id, certainty]));

  it("has what was left out as an option not chosen, and options as they were chosen", () => {
    expect(certainties(afterAnswer(items, { ...set, chosen: ["pair"], struck: ["a", "b"] }))).toEqual({
      a: { is: "optional", chosen: false, refused: 1 },
      b: { is: "optional", chosen: false, refused: 1 },
      c: { is: "optional", chosen: false },
      d: { is: "optional", chosen: true, group: "pair" },
    });
  });

  it("comes to what was agreed", () => {
    const input = job({ items });
    for (const struck of [["a"], ["b"], ["a", "b"]]) {
      const agreed = pricedSet(input, { chosen: ["c"], struck });
      if ("is" in agreed) throw new Error("unknown");
      const next = { ...input, items: afterAnswer(items, { ...set, chosen: ["c"], struck }) };
      expect(sheetOf(next).totals).toEqual(agreed.sheet.totals);
      expect(sheetOf(next).options.filter(({ refused }) => refused === 1)).toHaveLength(struck.length);
    }
  });

  it("goes back to what was agreed before when a later revision was declined, and offers its extra work no more by itself", () => {
    const agreed = [on("panel", "a"), on("loom", "gone")];
    const second = [on("panel", "a", { count: 9 }), on("top", "extra")];
    expect(afterAnswer(second, { ...set, revision: 2, declined: true }, agreed)).toEqual([
      agreed[0],
      { ...second[1], certainty: { is: "optional", chosen: false, refused: 2 } },
      agreed[1],
    ]);
  });

  it("is offered as it was after a first revision was declined", () =>
    expect(afterAnswer(items, { ...set, declined: true })).toBe(items));

  it("is taken by a draft begun before the answer, but for what the shop said otherwise and what it found meanwhile", () => {
    const after = afterAnswer(items, { ...set, chosen: ["pair"], struck: ["a", "b"] });
    const [a, b, c, d] = items as [WorkItem, WorkItem, WorkItem, WorkItem];
    const said: WorkItem = { ...b, certainty: { is: "if found", probability: 0.9 } };
    const draft = [{ ...a, count: 9 }, said, c, d, on("top", "extra")];
    expect(draftAfterAnswer(draft, items, after)).toEqual([{ ...after[0]!, count: 9 }, said, ...after.slice(2), draft[4]]);
    expect(draftAfterAnswer(after, items, after)).toBe(after);
  });

  it("keeps the revision in which work was first left out", () => {
    const [once] = afterAnswer([on("panel", "a")], { ...set, struck: ["a"] });
    expect(afterAnswer([once!], { ...set, revision: 2, declined: true }, [])[0]).toEqual(once);
  });
});
