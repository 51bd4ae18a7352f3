import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fieldsFrom } from "../../../src/pages/form/fields.js";
import { namesIn, REST, restOf, whole } from "../../../src/pages/form/rest.js";

const part = fc.stringMatching(/^[a-z%:/*-][a-z0-9%:/*-]{0,6}$/);
const name = fc.array(part, { minLength: 1, maxLength: 3 }).map((parts) => parts.join("."));
const text = fc.string({ unit: "grapheme", minLength: 1 }).map((typed) => typed.replaceAll("\r", ""));
const form = fc.uniqueArray(fc.tuple(name, text, fc.boolean()), { selector: ([name]) => name });

describe("what is not drawn of a form", () => {
  it("comes back with it, in the order it had, whatever is drawn", () => {
    fc.assert(
      fc.property(form, (rows) => {
        const fields = fieldsFrom(rows.map(([name, text]) => [name, text] as const));
        const drawn = new Set(rows.flatMap(([name, , isDrawn]) => (isDrawn ? [name] : [])));
        const rest = restOf(fields, drawn);
        // A browser sends line breaks as CR LF, and what is drawn wherever it stands.
        const sent = fieldsFrom([
          ...[...fields].filter(([name]) => drawn.has(name)).reverse(),
          [REST, rest.replaceAll("\n", "\r\n")],
        ]);
        expect([...whole(sent)]).toEqual([...fields].filter(([name, text]) => text !== "" || drawn.has(name)));
      }),
    );
  });

  it("is gone where a box that was drawn is no longer ticked", () => {
    const fields = fieldsFrom([
      ["terms.rush", "on"],
      ["unit.serial", "S-1"],
    ]);
    const rest = restOf(fields, new Set(["terms.rush"]));
    expect([...whole(fieldsFrom([[REST, rest]]))]).toEqual([["unit.serial", "S-1"]]);
  });

  it("keeps the row of an assembly that has no name yet", () => {
    const rest = restOf(fieldsFrom([["assembly.a1.name", ""]]), new Set());
    expect([...whole(fieldsFrom([[REST, rest]]))]).toEqual([["assembly.a1.name", ""]]);
  });

  it("is not what a name of the page says it draws", () => {
    expect([...namesIn('<input id="a.b" name="a.b"><select name="c">')]).toEqual(["a.b", "c"]);
  });
});
