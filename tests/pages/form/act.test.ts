import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import { act } from "../../../src/pages/form/act/act.js";
import { type Fields, fieldsFrom, key } from "../../../src/pages/form/fields.js";
import { fieldsFor } from "../../../src/pages/form/fieldsFor.js";
import { modelFrom, startFrom } from "../../../src/pages/form/model.js";
import { following } from "../../../src/pages/form/places.js";
import { readForm } from "../../../src/pages/form/readForm.js";
import { columnsShown } from "../../../src/pages/intake/gridCounts.js";
import type { IntakeView } from "../../../src/pages/intake/view.js";
import { bench, contextOf, demoInput } from "../cast/bench.js";

const form = (pairs: Record<string, string>) => fieldsFrom(Object.entries(pairs));
const total = (fields: Fields, context = bench) => {
  const outcome = estimate(readForm(fields, context).input);
  return outcome.ok ? outcome.sheet.totals.total : undefined;
};

const TWO = {
  "assembly.a1.name": "Voice board",
  "assembly.a2.name": "Supply",
  "assembly.a2.behind": "Voice board",
  "cells.a1.p:film": "3",
  "line.l1.part": "Resistor",
  "line.l1.assembly": "Voice board",
  "line.l1.count": "2",
};

describe("adding, repeating and removing rows", () => {
  it("adds an assembly under a key nobody has", () => {
    const { fields, focus } = act("add assembly", form(TWO), bench);
    expect(focus).toBe("assembly.a3.name");
    expect(fields.get("assembly.a3.name")).toBe("");
  });

  it("repeats a line right after it", () => {
    const { fields, focus } = act("repeat line:l1", form({ ...TWO, "line.l2.part": "Jack" }), bench);
    expect(Object.keys(readForm(fields, bench).draft.line)).toEqual(["l1", "l3", "l2"]);
    expect(fields.get("line.l3.part")).toBe("Resistor");
    expect(focus).toBe("line.l3.count");
  });

  it("puts back all of an assembly that was removed, counts included", () => {
    const before = form(TWO);
    const removed = act("remove assembly:a1", before, bench);
    expect([...removed.fields.keys()].filter((name) => name.includes(".a1."))).toEqual([]);
    const { fields: back } = act("put back", removed.fields, bench);
    expect(back.get("cells.a1.p:film")).toBe("3");
    expect(total(back)).toBe(total(before));
  });

  it("puts a row back where it stood", () => {
    const rowsOf = (fields: Map<string, string>) => Object.keys(readForm(fields, bench).draft.assembly);
    const three = form({ ...TWO, "assembly.a3.name": "Third", "assembly.a3.sort": "board" });
    for (const row of ["a1", "a2", "a3"]) {
      const back = act("put back", act(`remove assembly:${row}`, three, bench).fields, bench).fields;
      expect(rowsOf(back), row).toEqual(rowsOf(three));
      expect([...back.keys()].filter((name) => name.startsWith("meta.undo"))).toEqual([]);
    }
  });

  it("does not use the key of a row that can still be put back", () => {
    const removed = act("remove line:l1", form(TWO), bench);
    const added = act("add line", removed.fields, bench);
    expect(added.focus).toBe("line.l2.operation");
    expect(Object.keys(readForm(act("put back", added.fields, bench).fields, bench).draft.line).sort()).toEqual(["l1", "l2"]);
  });

  it("does nothing when what is to be put back cannot be read", () => {
    for (const undo of ["{", "[1,2]", '[["a"]]', "null"]) {
      expect([...act("put back", form({ "meta.undo": undo, "unit.maker": "Q" }), bench).fields]).toEqual([["unit.maker", "Q"]]);
    }
  });

  it("ignores an intent nobody offers", () => {
    expect(new Map(act("fly away", form({ "unit.maker": "Q" }), bench).fields)).toEqual(form({ "unit.maker": "Q" }));
  });
});

describe("renaming an assembly", () => {
  it("carries the new name into everything that named it", () => {
    const { fields } = act(
      "recalculate",
      form({ ...TWO, "assembly.a1.name": "Tone board", "assembly.a1.was": "Voice board" }),
      bench,
    );
    expect(fields.get("line.l1.assembly")).toBe("Tone board");
    expect(fields.get("assembly.a2.behind")).toBe("Tone board");
  });

  it("leaves a name alone that another assembly took over", () => {
    const swapped = form({
      ...TWO,
      "assembly.a1.name": "Supply",
      "assembly.a1.was": "Voice board",
      "assembly.a2.name": "Voice board",
      "assembly.a2.was": "Supply",
    });
    expect(act("recalculate", swapped, bench).fields.get("line.l1.assembly")).toBe("Voice board");
  });
});

describe("refining plain board counts", () => {
  it("gives every board a row, keeps all that was typed, and changes no cent", () => {
    const input = demoInput("plain-counts");
    const context = contextOf(input);
    const before = fieldsFor(input, context);
    const boards = (input.boards ?? []).reduce((sum, { count }) => sum + count, 0);
    const { fields } = act("refine", before, context);
    const kept = [...before].filter(([name]) => !name.startsWith("boards."));
    expect([...fields].filter(([name]) => before.has(name))).toEqual(kept);
    expect(readForm(fields, context).input.map?.assemblies).toHaveLength(boards);
    expect(total(fields, context)).toBe(total(before, context));
  });

  it("waits until the counts are right", () => {
    for (const count of ["-1", "1.5", "many", "1000000000"]) {
      const before = form({ "boards.small.on%20top": count });
      expect(act("refine", before, bench).fields).toEqual(before);
    }
  });
});

describe("starting from a model's map", () => {
  const input = demoInput("tape-echo");
  const context = contextOf(input);
  const model = { id: "m1", maker: input.unit.maker, model: input.unit.model, map: input.map! };

  it("fills the grid with its assemblies and usual counts", () => {
    const { fields } = startFrom(
      form({ "assembly.a1.name": "", "assembly.a1.sort": "board", "cells.a1.p:film": "" }),
      model,
      context,
    );
    const read = readForm(fields, context);
    expect(Object.keys(read.draft.assembly)).not.toContain("a1");
    expect(read.input.map?.assemblies.map(({ name }) => name)).toEqual(input.map!.assemblies.map(({ name }) => name));
    const counted = input.map!.assemblies.flatMap(({ counts = {} }) => Object.values(counts));
    expect(read.input.items.reduce((sum, { count }) => sum + count, 0)).toBe(counted.reduce((sum, count) => sum + count, 0));
  });

  it("overwrites nothing that was typed", () => {
    const typed = form({ "assembly.a1.name": "My own board", "cells.a1.p:film": "7", "unit.serial": "S1" });
    const { fields } = startFrom(typed, model, context);
    for (const [name, text] of typed) expect(fields.get(name)).toBe(text);
  });

  it("is kept as a model with the counts of the grid, and starts the next grid the same", () => {
    const sketch = form({
      "unit.maker": "Threnwick",
      "unit.model": "Cadence 3",
      "assembly.a1.name": "Lid",
      "fasteners.a1.screw": "8",
      "assembly.a2.name": "Main board",
      "assembly.a2.behind": "Lid",
      "cells.a2.p:film": "6",
    });
    const kept = modelFrom(readForm(sketch, bench))!;
    expect(kept.map.assemblies[1]).toMatchObject({ behind: ["a1"], counts: { film: 6 } });
    const { fields } = startFrom(form({}), { ...kept, id: "m2" }, bench);
    expect(total(fields)).toBe(total(sketch));
  });
});

describe("a line that is put elsewhere", () => {
  it("takes the view along, to where it stands among the lines there", () => {
    const lines = Array.from({ length: 90 }, (_, at) => [
      [`line.m${at}.operation`, "Inspect"],
      [`line.m${at}.assembly`, "Voice board"],
    ]).flat();
    const fields = form({ ...TWO, "assembly.a1.name": "Voice board", ...Object.fromEntries(lines) });
    const at = (line: string) => {
      const followed = following(fields, line);
      return [followed.get("meta.at"), Number(followed.get("meta.from")) <= Number(line.slice(1)), followed.get("meta.from")];
    };
    expect(at("m3")).toEqual(["a1", true, "0"]);
    expect(at("m85")).toEqual(["a1", true, "80"]);
    const nowhere = following(new Map(fields).set("line.m3.assembly", "Nowhere"), "m3");
    expect(nowhere.get("meta.at")).toBe("*");
  });
});

describe("work worth doing while an assembly is open", () => {
  const suggested = (fields: Fields, context: typeof bench) => {
    const outcome = estimate(readForm(fields, context).input);
    if (!outcome.ok) throw new Error("It has a price.");
    return outcome.sheet;
  };

  it("is put in by its button, at the price it was offered for, and taken out again", () => {
    let added = 0;
    for (const job of ["string-organ-keyboard", "valve-amplifier", "tape-echo"] as const) {
      const input = demoInput(job);
      const context = contextOf(input);
      const fields = fieldsFor(input, context);
      const before = suggested(fields, context);
      for (const { assembly, operation, count, partType, now } of before.suggestions) {
        const what = [assembly.id, operation.id, count, partType ?? ""].map((one) => encodeURIComponent(one)).join(":");
        const { fields: done, focus } = act(`add worth doing:${what}`, fields, context);
        const after = suggested(done, context);
        expect(after.suggestions).toHaveLength(before.suggestions.length - 1);
        // Each price is rounded by itself.
        expect(Math.abs(after.totals.total - before.totals.total - now)).toBeLessThanOrEqual(1);
        const row = done.get("meta.added")!;
        expect(focus).toBe(`line.${row}.count`);
        const out = act(`remove line:${row}`, done, context).fields;
        expect(suggested(out, context).totals.total).toBe(before.totals.total);
        expect(out.has("meta.added")).toBe(false);
        added += 1;
      }
    }
    expect(added).toBeGreaterThan(0);
  });
});

it("columns of the count grid stay where they are while they are typed into, and one asked for stands beside them", () => {
  const shown = (cells: Record<string, Record<string, string>>, show: Record<string, string> = {}) =>
    columnsShown({ read: { draft: { cells, usual: {}, show } }, context: bench } as unknown as IntakeView, new Map()).map(
      ({ id }) => id,
    );
  const [first, second] = shown({});
  const typed = { a1: { [key(first!)]: "14", [key(second!)]: "2", [key("o:clean-pots")]: "24" } };
  expect(shown({}).length).toBe(12);
  expect(shown(typed)).toEqual(shown({}));
  expect(shown(typed, { [key("p:valve")]: "on" })).toContain("p:valve");
  expect(shown(typed, { [key("p:valve")]: "on" })).toEqual(expect.arrayContaining([first, second, "o:clean-pots"]));
});

it("a count taken out of the grid is named", () => {
  const { say } = act("remove cell:a1.p:film", form({ "assembly.a1.name": "Voice board", "cells.a1.p:film": "3" }), bench);
  expect(say).toBe("Removed: the count of Film capacitor. It can be put back.");
});
