/** Models as a browser without script meets them: the map drawn, changed, copied, given away and taken in. */
import { readFile } from "node:fs/promises";
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { earlierJobs } from "../../../src/records/earlierJobs.js";
import { modelNamed, models } from "../../../src/records/models.js";
import { stands } from "../../acts/support/bench.js";
import { closed } from "../../records/support/closed.js";
import { change } from "../../records/support/put.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";
import { issued, story } from "../support/story.js";

async function amplifier() {
  const opened = await shop();
  const model = (await modelNamed(opened.db, "Brantoft", "Thornbee 30"))!;
  return { opened, model, desk: visitor(opened), edit: `/models/${model.id}/edit` };
}

/** Hazards and fasteners are sets: the form writes them in its own order. */
const inOrder = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (name, inner) =>
      name === "hazards" || name === "fasteners" ? [...inner].map((one) => JSON.stringify(one)).sort() : inner,
    ),
  );

describe("the editor of a teardown map", () => {
  it("saves a map that was not touched as it was", async () => {
    const { opened, model, desk, edit } = await amplifier();
    const saved = await desk.press(await desk.get(edit), "Save the map");
    expect(saved.path).toBe(`/models/${model.id}?saved`);
    const { version, updatedAt: _, ...after } = (await models.find(opened.db, model.id))!;
    const { version: before, updatedAt: __, ...was } = model;
    expect([version, inOrder(after)]).toEqual([before + 1, inOrder(was)]);
  });

  it("names a ring and an unknown assembly beside the field, draws both, and keeps what was typed", async () => {
    const { opened, model, desk, edit } = await amplifier();
    const page = await desk.get(edit);
    const ring = await desk.press(page, "Save the map", { "assembly.back-panel.behind": "Bias board" });
    expect(ring.status).toBe(422);
    expect(ring.html).toMatch(/id="assembly\.[\w-]+\.behind-wrong"/);
    expect(words(ring.html)).toContain("wait for one another: no order is possible");
    const unknown = await desk.press(page, "Redraw", { "assembly.back-panel.behind": "Front pannel" });
    expect(words(unknown.html)).toContain("'Front pannel' is not known");
    expect(words(unknown.html)).toContain("not on the map");
    expect(unknown.html).toContain('value="Front pannel"');
    expect((await models.find(opened.db, model.id))?.version).toBe(model.version);
  });

  it("shows both versions when someone else saved first, and saves ours when told", async () => {
    const { opened, model, desk, edit } = await amplifier();
    const page = await desk.get(edit);
    await desk.press(page, "Save the map", { "model.notes": "Theirs." });
    const conflict = await desk.press(page, "Save the map", { "model.notes": "Ours." });
    expect(conflict.status).toBe(409);
    expect(words(conflict.html)).toMatch(/Someone else saved this\s*map\s*first.*Notes on this model\s*Ours\.\s*Theirs\./s);
    await desk.press(conflict, "Save the map");
    expect((await models.find(opened.db, model.id))?.notes).toBe("Ours.");
  });

  it("draws a new map from an empty page, and says what is missing", async () => {
    const { opened, desk } = await amplifier();
    const blank = await desk.get("/models/new");
    const refused = await desk.press(blank, "Save the map");
    expect(refused.status).toBe(422);
    for (const field of ["unit.maker", "unit.model", "assembly.a1.name"]) expect(refused.html).toContain(`href="#${field}"`);
    const filled = { "unit.maker": "Wrenlow", "unit.model": "Tern 2", "assembly.a1.name": "Cover", "assembly.a2.name": "Board" };
    const added = await desk.press(await desk.press(refused, "Redraw", filled), "Add a refit order");
    const saved = await desk.press(added, "Save the map", { "assembly.a2.behind": "Cover", "usual.a2.p:electrolytic": "4" });
    expect(saved.status, words(saved.html)).toBe(200);
    expect((await modelNamed(opened.db, "wrenlow", "TERN 2"))?.map.assemblies).toMatchObject([
      { name: "Cover" },
      { name: "Board", behind: ["a1"], counts: { electrolytic: 4 } },
    ]);
    const again = await desk.press(blank, "Save the map", { ...filled, "assembly.a1.name": "Lid" });
    expect([again.status, words(again.html)]).toEqual([200, expect.stringContaining("Tern 2")]);
  });

  it("copies a map to another model", async () => {
    const { opened, model, desk } = await amplifier();
    const copy = await desk.get(`/models/new?from=${model.id}`);
    const taken = await desk.press(copy, "Save the map", { "unit.model": "THORNBEE 30" });
    expect([taken.status, words(taken.html)]).toEqual([409, expect.stringContaining("Brantoft Thornbee 30 has a map already")]);
    expect(taken.html).toContain(`<a href="/models/${model.id}/edit">The map of Brantoft Thornbee 30 that is on record</a>`);
    await desk.press(copy, "Save the map", { "unit.model": "Thornbee 50" });
    expect(inOrder((await modelNamed(opened.db, "Brantoft", "Thornbee 50"))?.map)).toEqual(inOrder(model.map));
  });
});

describe("a map as a file", () => {
  it("goes out and comes in again the same, seen before it is kept", async () => {
    const { model, desk } = await amplifier();
    const file = await desk.get(`/models/${model.id}.json`);
    expect(file.headers.get("content-disposition")).toBe('attachment; filename="map-Brantoft-Thornbee-30.json"');
    const other = await shop();
    const visit = visitor(other);
    const text = JSON.stringify({ ...JSON.parse(file.html), model: "Thornbee 31" });
    const checked = await visit.press(await visit.get("/models/import"), "Check it", { text });
    expect(words(checked.html)).toContain("It would be added as a new model.");
    expect(await modelNamed(other.db, "Brantoft", "Thornbee 31")).toBeUndefined();
    await visit.press(checked, "Keep it");
    expect(await modelNamed(other.db, "Brantoft", "Thornbee 31")).toMatchObject({ map: model.map, notes: model.notes });
  });

  it("takes the place of a map only as it was seen", async () => {
    const { opened, model, desk } = await amplifier();
    const text = (await desk.get(`/models/${model.id}.json`)).html.replace('"Never', '"Always');
    const checked = await desk.press(await desk.get("/models/import"), "Check it", { text });
    await change(opened.db, models, model.id, model, "2026-11-25T10:00:00.000Z", model.version);
    const refused = await desk.press(checked, "Replace the map kept now");
    expect([refused.status, words(refused.html)]).toEqual([409, expect.stringContaining("changed since it was checked")]);
    await desk.press(refused, "Replace the map kept now");
    expect((await models.find(opened.db, model.id))?.version).toBe(model.version + 2);
  });

  it.each([
    ["", "There is nothing to read"],
    ["{", "This is not JSON"],
    ["[]", "This is no teardown map"],
    ['{"format":"ohmwright teardown map","version":2}', "The file is of version 2, and this program reads up to version 1"],
    [
      '{"format":"ohmwright teardown map","version":1,"maker":"A","model":"B","map":{"assemblies":[]},"extra":1}',
      "extra is not a key",
    ],
    [
      '{"format":"ohmwright teardown map","version":1,"maker":"A","model":"B","map":{"assemblies":[]}}',
      "The map has no assembly",
    ],
    [
      '{"format":"ohmwright teardown map","version":1,"maker":"A","model":"B","map":{"assemblies":[{"id":"a","name":"Lid","sort":"cover","access":{"by":"fasteners","fasteners":[]},"behind":["b"],"counts":{"flux pen":2}}]}}',
      "the usual count of 'flux pen' has no entry in the rate book here",
    ],
  ])("refuses %s", async (text, why) => {
    const { desk } = await amplifier();
    const refused = await desk.press(await desk.get("/models/import"), "Check it", { text });
    expect([refused.status, words(refused.html)]).toEqual([422, expect.stringContaining(why)]);
  });

  it("refuses a file that is no UTF-8", async () => {
    const { opened } = await amplifier();
    const body = new FormData();
    body.set("file", new File([new Uint8Array([0xff, 0xfe, 0x7b, 0x00])], "map.json"));
    const headers = { "sec-fetch-site": "same-origin", accept: "text/html" };
    const answer = await opened.app.request("http://localhost:4700/models/import", { method: "POST", body, headers });
    expect([answer.status, await answer.text()]).toEqual([422, expect.stringContaining("not text in UTF-8")]);
  });
});

describe("counts of earlier jobs", () => {
  it("are told on the model's page and taken into a new estimate only when asked, each marked", async () => {
    const told = await story(0);
    const { db } = told.opened;
    await issued(told);
    const unit = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8")).units[0] as { maker: string; model: string };
    const { jobs, seen } = await earlierJobs(db, unit.maker.toUpperCase(), unit.model);
    expect(jobs).toBe(1);
    expect(seen.length).toBeGreaterThan(3);
    const model = (await modelNamed(db, unit.maker, unit.model))!;
    expect(words((await told.desk.get(`/models/${model.id}`)).html)).toMatch(/1\s*of\s*1/);

    const blank = await told.desk.get("/estimates/new?open=grid");
    expect(words(blank.html)).toContain("Counts of earlier jobs go to assemblies that have the same name here.");
    const none = await told.desk.press(blank, "Take counts of earlier jobs of this model");
    expect(words(none.html)).toContain("Fill in maker and model first.");
    const mapped = await told.desk.get(`/estimates/new?open=grid&model=${model.id}`);
    const cleared = await told.desk.press(mapped, "Clear all counts");
    expect(cleared.html).not.toContain('name="earlier.');
    const taken = await told.desk.press(cleared, "Take counts of earlier jobs of this model");
    expect(words(taken.html)).toMatch(/\d+ counts were suggested from the one earlier job/);
    expect(words(taken.html)).toMatch(/Suggested from earlier jobs/);
    expect(taken.html).toMatch(/class="suggested"/);
    const again = await told.desk.press(taken, "Take counts of earlier jobs of this model");
    expect(words(again.html)).toContain("Nothing to take from the one earlier job");
    // Many at once are no one line to take out again, and a count that stands otherwise is told of with both figures and stays.
    expect(taken.html).not.toContain("Take it out again");
    const [, cell] = /name="(cells\.[^"]+\.p:[^"]+)"[^>]*value="\d+"/.exec(taken.html)!;
    for (const button of ["Take counts of earlier jobs of this model", "Start from this model's map"]) {
      const other = await told.desk.press(cleared, button, { [cell!]: "99" });
      expect(words(other.html)).toMatch(/usually had other counts, and nothing was changed: .+: 99 here, \d+ there/);
      expect(other.html).toMatch(new RegExp(`name="${cell}"[^>]*value="99"`));
    }
  });

  it("come with what the job of the model that was closed last took against what was planned", async () => {
    const told = await story();
    const { maker, model } = (await stands(told.opened.db, told.jobId)).unit;
    const named = { "unit.maker": maker, "unit.model": model };
    const blank = await told.desk.get("/estimates/new");
    const said = async () => words((await told.desk.press(blank, "Start from this model's map", named)).html);
    expect(await said()).not.toContain("closed last");
    await closed(told.opened.db, told.jobId);
    expect(await said()).toMatch(/The job of this model closed last:\s+J-2026-\d+, 4 December 2026: \d.* worked, \d.* planned/);
  });

  it("are found by an index, however many units there are", async () => {
    const { opened } = await amplifier();
    const plan = await opened.db.all<{ detail: string }>(
      sql`explain query plan select id from units where lower(maker) = lower('a') and lower(model) = lower('b')`,
    );
    expect(plan.map(({ detail }) => detail).join()).toContain("units_maker_model");
  });
});
