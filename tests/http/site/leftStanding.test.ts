/** A form writes what it shows. Whatever else stands on the same records is left as it was: each column is set first, so that a new one is asked about here. */
import { getTableColumns, type Table } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { estimates } from "../../../src/records/estimates.js";
import { jobsTable } from "../../../src/records/jobs.js";
import { modelsTable } from "../../../src/records/models.js";
import { ownersTable } from "../../../src/records/owners.js";
import { settingsTable } from "../../../src/records/settings.js";
import { unitsTable } from "../../../src/records/units.js";
import type { Filled } from "../support/noScript.js";
import { type Story, story } from "../support/story.js";

type Row = Readonly<Record<string, unknown>>;

/** What a draft's form carries, and what it does not. */
const FORM = {
  "owner.phone": "01632 960784",
  "owner.email": "orla@larkholt.example",
  "owner.address": "4 Lantern Row\nLarkholt",
  "unit.serial": "QM-0417",
  "unit.value": "900",
  "unit.reported": "hums",
  "unit.condition": "scuffed",
  "unit.accessories": "cover",
};
const OWNER = { taxNumber: "GB 999 9999 73", registration: "demo 0417", notes: "rings early", language: "de", locale: "de-AT" };
const NOTES = { notes: "kept under the stairs" };

async function get({ opened }: Story, path: string): Promise<Row> {
  return (await opened.call(path)).json() as Promise<Row>;
}

/** Puts `value` in place of what stands, which keeps its links to other records. */
async function put(told: Story, path: string, value: Row): Promise<void> {
  const {
    id: _,
    version,
    createdAt: _c,
    updatedAt: _u,
    number: _n,
    state: _s,
    next: _x,
    nextBy: _y,
    ...rest
  } = await get(told, path);
  const answer = await told.opened.send("PUT", path, { ...rest, ...value }, { "if-match": `"${version}"` });
  expect(answer.status, await answer.clone().text()).toBe(200);
}

/** Every column is in `row`, but for those that only the database counts. */
function whole(table: Table, row: Row, but: readonly string[] = []): void {
  expect(Object.keys(row).sort()).toEqual(
    Object.keys(getTableColumns(table))
      .filter((column) => !but.includes(column))
      .sort(),
  );
}

async function filled() {
  const told = await story();
  const job = await get(told, `/api/jobs/${told.jobId}`);
  const unit = await get(told, `/api/units/${job.unitId}`);
  const paths = { owner: `/api/owners/${job.ownerId}`, unit: `/api/units/${job.unitId}`, job: `/api/jobs/${told.jobId}` };
  const model = `/api/models/${unit.modelId}`;
  await told.desk.press(await told.desk.get(`/estimates/${told.estimateId}?open=all`), "Save", FORM);
  await put(told, paths.owner, OWNER);
  await put(told, paths.unit, NOTES);
  await put(told, paths.job, NOTES);
  await put(told, model, NOTES);
  const read = async () => {
    const [one, two, three] = await Promise.all([get(told, paths.owner), get(told, paths.unit), get(told, paths.job)]);
    return { owner: one, unit: two, job: three, model: await get(told, model) };
  };
  const before = await read();
  whole(ownersTable, before.owner);
  whole(unitsTable, before.unit);
  const { number: _, state: __, next: ___, nextBy: ____, ...visit } = before.job;
  whole(jobsTable, visit, ["year", "sequence"]);
  whole(modelsTable, before.model);
  const saved = async (page: string, button: string, typed: Filled = {}) => {
    const { status, html } = await told.desk.press(await told.desk.get(page), button, typed);
    expect(status, html).toBe(200);
    return read();
  };
  return { ...told, before, saved };
}

/** But for the version and the time of the last change. */
function same(is: Row, was: Row, changed: Row = {}): void {
  const { version: _, updatedAt: __, ...rest } = was;
  expect(is).toMatchObject({ ...rest, ...changed });
  expect(Object.keys(is).sort()).toEqual(Object.keys(was).sort());
}

describe("saving a draft", () => {
  it("changes what was typed of owner, unit and visit, and nothing beside it", async () => {
    const { before, saved, estimateId } = await filled();
    const after = await saved(`/estimates/${estimateId}?open=all`, "Save", {
      "owner.phone": "01632 960001",
      "unit.serial": "QM-0418",
      "unit.reported": "hums and crackles",
    });
    same(after.owner, before.owner, { phone: "01632 960001" });
    same(after.unit, before.unit, { serial: "QM-0418" });
    same(after.job, before.job, { reported: "hums and crackles" });
    same(after.model, before.model);
  });

  it("empties what was emptied, and nothing beside it", async () => {
    const { before, saved, estimateId } = await filled();
    const after = await saved(`/estimates/${estimateId}?open=all`, "Save", {
      "owner.email": "",
      "unit.serial": "",
      "unit.condition": "",
    });
    const without = (row: Row, key: string) => Object.fromEntries(Object.entries(row).filter(([name]) => name !== key));
    same(after.owner, without(before.owner, "email"));
    same(after.unit, without(before.unit, "serial"));
    same(after.job, without(before.job, "condition"));
  });

  it("with its map kept for the next one leaves what the shop noted on the model", async () => {
    const { before, saved, estimateId } = await filled();
    const { map: _, ...rest } = (await saved(`/estimates/${estimateId}?open=all`, "Save", { "meta.keepModel": "on" })).model;
    const { map: __, ...was } = before.model;
    same(rest, was);
  });

  it("leaves what was chosen for its paper", async () => {
    const { desk, job, opened, estimateId, saved } = await filled();
    const papers = await desk.press(await desk.get(`${job}/papers`), "Save", { paper: "Letter" });
    expect(papers.status).toBe(200);
    const chosen = (await estimates.find(opened.db, estimateId))!.input.paperwork;
    expect(chosen).toMatchObject({ paper: "Letter" });
    await saved(`/estimates/${estimateId}?open=all`, "Save", { "unit.reported": "hums and crackles" });
    expect((await estimates.find(opened.db, estimateId))!.input.paperwork).toEqual(chosen);
  });
});

it("choosing an owner's language leaves the rest of the owner", async () => {
  const { before, job, saved } = await filled();
  same((await saved(`${job}/papers`, "Save", { language: "en", locale: "en-GB" })).owner, before.owner, {
    language: "en",
    locale: "en-GB",
  });
});

it("the language an owner reads is asked at intake, stands there as on record, and changes nothing else", async () => {
  const { before, desk, estimateId, saved } = await filled();
  const page = `/estimates/${estimateId}?open=all`;
  expect((await desk.get(page)).html).toMatch(/name="owner.language"[\s\S]*?<option value="de" selected/);
  same((await saved(page, "Save", {})).owner, before.owner);
  same((await saved(page, "Save", { "owner.language": "en" })).owner, before.owner, { language: "en" });
});

it("saving a model's map unchanged changes nothing", async () => {
  const { saved, before } = await filled();
  const page = `/models/${before.model.id}/edit`;
  // The page lists fasteners in its own order.
  const once = await saved(page, "Save the map");
  same((await saved(page, "Save the map")).model, once.model);
  const { map: _, ...was } = before.model;
  same({ ...once.model, map: undefined }, { ...was, map: undefined });
});

it("saving the shop's settings leaves every other of them", async () => {
  const told = await story();
  await put(told, "/api/settings", {
    ...{ address: ["4 Lantern Row"], phone: "01632 960784", email: "shop@larkholt.example", taxNumber: "GB 999 9999 73" },
    ...{
      registration: "demo 0417",
      terms: ["Cash or transfer."],
      profileTerms: { "us-ca": ["As the bureau wants it."] },
      footer: ["Open on Thursdays."],
      language: "en",
      names: { de: { "Lid, hinged": "Deckel, angeschlagen" } },
    },
  });
  const before = await get(told, "/api/settings");
  whole(settingsTable, before, ["logo"]);
  await told.desk.press(await told.desk.get("/settings"), "Save", { phone: "01632 960001" });
  same(await get(told, "/api/settings"), before, { phone: "01632 960001" });
});
