/** What a browser is sent of an estimate's form, and how many fields it holds. The goals are the shop's own. */
import { expect, it } from "vitest";
import { visitor } from "../support/noScript.js";
import { demo, shop } from "../support/shop.js";

const MOST = { bytes: 150_000, fields: 300 };

const fieldsIn = (html: string) => html.match(/<(input|select|textarea)[ >]/g)!.length;

it("the form of every demo estimate is at most 150 kB and 300 fields, and a new one opens on what makes a price", async () => {
  const opened = await shop();
  const desk = visitor(opened);
  for (const { estimates } of (await demo()).jobs)
    for (const { id } of estimates) {
      const { html } = await desk.get(`/estimates/${id}`);
      expect(html.length, id).toBeLessThan(MOST.bytes);
      expect(fieldsIn(html), id).toBeLessThan(MOST.fields);
    }
  const { html } = await desk.get("/estimates/new");
  expect(html.length).toBeLessThan(100_000);
  // Maker and model, three boards and the unit in twelve columns, and the next line.
  expect(fieldsIn(html)).toBeLessThanOrEqual(60);
});

it("400 lines on one place are drawn forty at a time, and none is lost", async () => {
  const opened = await shop();
  const desk = visitor(opened);
  const form = await desk.get("/estimates/new?open=list+intake");
  const list = Array.from({ length: 400 }, (_, line) => `Adjust voice ${line + 1}`).join("\n");
  const added = await desk.press(form, "Add these lines", {
    "next.list": list,
    "owner.name": "Nerys",
    "unit.maker": "T",
    "unit.model": "C",
  });
  expect(added.html).toContain("Lines 1 to 40 of 400");
  expect(added.html.match(/<fieldset class="line"/g)).toHaveLength(40);
  const further = await desk.press(added, "Further lines");
  expect(further.html).toContain("Lines 41 to 80 of 400");
  expect(further.html.length).toBeLessThan(2 * MOST.bytes);
});
