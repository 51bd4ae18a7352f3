import { describe, expect, it } from "vitest";
import { extraFault } from "../../../src/estimating/agreement/extraFault.js";
import { engineErrors, readExtra } from "../../../src/pages/revise/readExtra.js";
import { contextOf, demoInput } from "../cast/bench.js";

const organ = demoInput("string-organ-keyboard");
const context = contextOf(organ);
const read = (fields: Record<string, string>, input = organ) => readExtra(new Map(Object.entries(fields)), input, context);

describe("an extra fault as it is typed", () => {
  it("replaces one of the part on the unit as a whole when nothing else is said", () => {
    const { item, errors } = read({ reason: "cracked", part: "Jack" });
    expect(errors.size).toBe(0);
    expect(item).toMatchObject({
      operation: "replace",
      count: 1,
      part: { type: context.rateBook.partTypes.find(({ name }) => name === "Jack")!.id },
      certainty: { is: "planned" },
      reason: "cracked",
    });
    expect(item).not.toHaveProperty("assembly");
  });

  it("knows assemblies, work and parts by the names a person reads, whatever the case", () => {
    const [assembly] = organ.map!.assemblies;
    const { item } = read({ reason: "dirty", work: "clean a BOARD", where: assembly!.name.toUpperCase(), count: "2" });
    expect(item).toMatchObject({ assembly: assembly!.id, count: 2 });
    expect(item).not.toHaveProperty("part");
  });

  it("gives the item an id that no item of the job has", () => {
    const first = read({ reason: "cracked", part: "Jack" }).item!;
    const second = read({ reason: "cracked", part: "Jack" }, { ...organ, items: [...organ.items, first] }).item!;
    expect(new Set([...organ.items.map(({ id }) => id), first.id, second.id]).size).toBe(organ.items.length + 2);
  });

  it("brings along what the catalogue knows of a part that the job had no use for", () => {
    const used = new Set(organ.items.flatMap(({ part }) => (part && "kind" in part ? [part.kind] : [])));
    const [kind] = organ.kinds!.filter(({ id }) => !used.has(id)).concat(organ.kinds!);
    const bare = { ...organ, kinds: [], offers: [], items: [] };
    const { base, item } = read({ reason: "worn", part: kind!.name }, bare);
    expect(base.kinds).toEqual([kind]);
    expect(base.offers).toEqual(context.offers.filter((offer) => offer.kind === kind!.id));
    expect(extraFault(base, { items: [item!] }).ok).toBe(true);
  });

  it("makes an option that is not chosen, and possible work with its chance", () => {
    expect(read({ reason: "nicer", part: "Jack", certainty: "optional" }).item!.certainty).toEqual({
      is: "optional",
      chosen: false,
    });
    expect(read({ reason: "worn", part: "Jack", certainty: "if found", chance: "25" }).item!.certainty).toEqual({
      is: "if found",
      probability: 0.25,
    });
  });

  it.each([
    [{ part: "Jack" }, "reason"],
    [{ reason: "odd" }, "work"],
    [{ reason: "odd", part: "flux capacitor" }, "part"],
    [{ reason: "odd", work: "polish" }, "work"],
    [{ reason: "odd", part: "Jack", where: "the attic" }, "where"],
    [{ reason: "odd", part: "Jack", count: "several" }, "count"],
    [{ reason: "odd", part: "Jack", certainty: "if found" }, "chance"],
    [{ reason: "odd", part: "Jack", certainty: "perhaps" }, "certainty"],
  ])("%o is named beside its field: %s", (fields, field) => {
    const { item, errors } = read(fields as Record<string, string>);
    expect(item).toBeUndefined();
    expect([...errors.keys()]).toEqual([field]);
    expect(errors.get(field)).toMatch(/^[A-Z].*\.$/);
  });

  it("what the engine refuses stands beside its field too", () => {
    const { base, item } = read({ reason: "odd", part: "Jack", count: "-2" });
    const refused = extraFault(base, { items: [item!] });
    if (refused.ok) throw new Error("A negative count was priced.");
    const errors = engineErrors(refused.problems, base.items.length);
    expect([...errors.keys()]).toEqual(["count"]);
    expect(errors.get("count")).toContain("the count is -2");
  });
});
