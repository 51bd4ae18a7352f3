/** The pages as a browser without script meets them: forms in, pages and redirects out. */
import { describe, expect, it } from "vitest";
import { fieldsFrom } from "../../../src/pages/form/fields.js";
import { whole } from "../../../src/pages/form/rest.js";
import { estimates } from "../../../src/records/estimates.js";
import { jobs } from "../../../src/records/jobs.js";
import { modelNamed } from "../../../src/records/models.js";
import { owners } from "../../../src/records/owners.js";
import { visitor, words } from "../support/noScript.js";
import { demo, shop } from "../support/shop.js";

type Shop = Awaited<ReturnType<typeof shop>>;

/** The fields of the page's form, as a browser would send them; what is not drawn of it with them. */
function fieldsOn(html: string): URLSearchParams {
  const fields = new URLSearchParams();
  const form = html.slice(html.indexOf('id="intake"'), html.indexOf("</form>"));
  const text = (raw: string) =>
    raw
      .replaceAll("&quot;", '"')
      .replaceAll("&lt;", "<")
      .replaceAll("&gt;", ">")
      .replaceAll("&#39;", "'")
      .replaceAll("&amp;", "&");
  for (const [, attributes = ""] of form.matchAll(/<input ([^>]*)>/g)) {
    const of = (name: string) => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes)?.[1];
    if (of("type") === "checkbox" && !/ checked/.test(attributes)) continue;
    if (of("name")) fields.set(text(of("name")!), text(of("value") ?? ""));
  }
  for (const [, attributes = "", body = ""] of form.matchAll(/<textarea ([^>]*)>([^<]*)<\/textarea>/g)) {
    fields.set(/name="([^"]*)"/.exec(attributes)![1]!, text(body));
  }
  for (const [, attributes = "", body = ""] of form.matchAll(/<select ([^>]*)>(.*?)<\/select>/gs)) {
    const options = [...body.matchAll(/<option value="([^"]*)"([^>]*)>/g)];
    const chosen = options.find(([, , rest = ""]) => rest.includes("selected")) ?? options[0];
    fields.set(text(/name="([^"]*)"/.exec(attributes)![1]!), text(chosen?.[1] ?? ""));
  }
  return new URLSearchParams([...whole(fieldsFrom(fields))]);
}

const page = async ({ app }: Shop, path: string) => {
  const answer = await app.request(`http://localhost:4700${path}`);
  return { status: answer.status, html: await answer.text() };
};

const post = async ({ app }: Shop, path: string, fields: URLSearchParams, intent?: string) => {
  const body = new URLSearchParams(fields);
  if (intent) body.set("intent", intent);
  const answer = await app.request(`http://localhost:4700${path}`, {
    method: "POST",
    body: body.toString(),
    headers: { "content-type": "application/x-www-form-urlencoded", "sec-fetch-site": "same-origin", accept: "text/html" },
  });
  return {
    status: answer.status,
    html: await answer.text(),
    to: answer.headers.get("location") ?? "",
    type: answer.headers.get("content-type"),
  };
};

const total = (html: string): string => {
  const found = /<span class="till-name">Total<\/span> <strong>([^<]+)</.exec(html)?.[1];
  expect(found).toMatch(/^£[1-9]/);
  return found!;
};

async function blank(opened: Shop, said: Readonly<Record<string, string>> = {}) {
  const fields = fieldsOn((await page(opened, "/estimates/new")).html);
  for (const [name, text] of Object.entries(said)) fields.set(name, text);
  return fields;
}

const SMALL = {
  "owner.name": "Nerys Quillfeather",
  "unit.maker": "Threnwick",
  "unit.model": "Cadence 3",
  "assembly.a1.name": "Main board",
  "fasteners.a1.screw": "6",
  "cells.a1.p:film": "4",
};

describe("a new estimate", () => {
  it("recalculates by the button, keeping all that was typed", async () => {
    const opened = await shop();
    const fields = await blank(opened, { ...SMALL, "unit.reported": 'hum & "buzz" <loud>' });
    const { status, html } = await post(opened, "/estimates/new", fields, "recalculate");
    expect(status).toBe(200);
    total(html);
    const again = fieldsOn(html);
    for (const [name, text] of fields) if (text !== "") expect(again.get(name), name).toBe(text);
  });

  it("offers what usually goes with the work, one tap away, and no more once it is there", async () => {
    const opened = await shop();
    const { html } = await post(
      opened,
      "/estimates/new",
      await blank(opened, { ...SMALL, "cells.a1.p:film": "40" }),
      "recalculate",
    );
    const [, intent] = /<button type="submit" form="intake" name="intent" value="(add line:[^"]+)"/.exec(html)!;
    expect(intent).toBe("add line:Test every function");
    const added = await post(opened, "/estimates/new", fieldsOn(html), intent);
    expect(fieldsOn(added.html).get("line.l1.operation")).toBe("Test every function");
    expect(added.html).not.toContain("Usually goes with it");
    expect(total(added.html)).not.toBe(total(html));
  });

  it("came in on the day it is taken in, whatever day its prices are of", async () => {
    const opened = await shop();
    const { to } = await post(opened, "/estimates/new", await blank(opened, { ...SMALL, "meta.asOf": "2019-01-01" }), "save");
    const { input, jobId } = (await estimates.find(opened.db, to.split("/").at(-1)!.split("?")[0]!))!;
    expect([input.asOf, (await jobs.find(opened.db, jobId))!.arrivedOn]).toEqual(["2019-01-01", "2026-11-25"]);
  });

  it("is saved once, however often it is sent, and shows the same total again", async () => {
    const opened = await shop();
    const fields = await blank(opened, SMALL);
    const priced = total((await post(opened, "/estimates/new", fields, "recalculate")).html);
    const before = (await jobs.list(opened.db, { limit: 100 })).rows.length;
    const answers = await Promise.all([1, 2, 3].map(() => post(opened, "/estimates/new", fields, "save")));
    expect(new Set(answers.map(({ status, to }) => `${status} ${to}`)).size).toBe(1);
    expect(answers[0]!.status).toBe(303);
    expect((await jobs.list(opened.db, { limit: 100 })).rows).toHaveLength(before + 1);
    expect(total((await page(opened, answers[0]!.to)).html)).toBe(priced);
  });

  it("asks for what a job cannot be without, and saves nothing", async () => {
    const opened = await shop();
    const before = (await jobs.list(opened.db, { limit: 100 })).rows.length;
    const { status, html } = await post(opened, "/estimates/new", await blank(opened, { "cells.*.p:film": "3" }), "save");
    expect(status).toBe(422);
    expect(html).toContain("<title>Error: New estimate");
    expect(html).toContain('<a href="#unit.model">Model: nothing is given');
    expect(fieldsOn(html).get("cells.*.p:film")).toBe("3");
    expect((await jobs.list(opened.db, { limit: 100 })).rows).toHaveLength(before);
  });

  it("of a unit in two words, whose owner nobody asked yet, is saved; it is not issued before the owner has a name", async () => {
    const opened = await shop();
    const said = { "unit.model": "string synthesizer", "cells.*.p:film": "3" };
    const { status, to } = await post(opened, "/estimates/new", await blank(opened, said), "save");
    expect(status).toBe(303);
    const { jobId } = (await estimates.find(opened.db, /estimates\/([^?]+)/.exec(to)![1]!))!;
    expect((await page(opened, "/")).html).toContain("owner not named yet");
    const { html } = await page(opened, `/jobs/${jobId}/issue`);
    expect(html).toMatch(/href="\/estimates\/[^"]+\?open=intake#owner\.name"/);
    const issued = await opened.send("POST", `/api/estimates/${jobId}/issue`, { by: "Orla" }, { "if-match": "*" });
    expect([issued.status, await issued.text()]).toEqual([422, expect.stringContaining("owner")]);
    const receipt = await opened.app.request(`http://localhost:4700/estimates/${jobId}/intake-receipt.pdf`);
    expect([receipt.status, receipt.headers.get("content-type")]).toEqual([200, "application/pdf"]);
  });

  it("shows both versions when the same form is sent again with other content", async () => {
    const opened = await shop();
    const fields = await blank(opened, SMALL);
    await post(opened, "/estimates/new", fields, "save");
    fields.set("cells.a1.p:film", "9");
    const { status, html } = await post(opened, "/estimates/new", fields, "save");
    expect(status).toBe(409);
    expect(html).toMatch(/Film capacitor, Main board<\/th><td>9<\/td><td>4<\/td>/);
    expect(fieldsOn(html).get("cells.a1.p:film")).toBe("9");
  });

  it("offers to keep the map in whole words while no model is named", async () => {
    const { html } = await visitor(await shop()).get("/estimates/new?open=map");
    expect(html).toContain("Keep this map for the next unit of this model");
  });

  it("keeps a sketched map, and the next estimate of that model starts from it", async () => {
    const opened = await shop();
    await post(opened, "/estimates/new", await blank(opened, { ...SMALL, "meta.keepModel": "on" }), "save");
    const kept = await modelNamed(opened.db, "threnwick", "CADENCE 3");
    expect(kept?.map.assemblies[0]).toMatchObject({ name: "Main board", counts: { film: 4 } });
    const next = await blank(opened, { "unit.maker": "Threnwick", "unit.model": "Cadence 3" });
    const { html } = await post(opened, "/estimates/new", next, "take model");
    expect(fieldsOn(html).get(`cells.${kept!.map.assemblies[0]!.id}.p:film`)).toBe("4");
  });

  it("says so when no map is kept", async () => {
    const opened = await shop();
    const { html } = await post(
      opened,
      "/estimates/new",
      await blank(opened, { "unit.maker": "Nobody", "unit.model": "X" }),
      "take model",
    );
    expect(html).toContain("No map is kept for Nobody X yet.");
  });

  it("takes an owner on record, and writes no second one", async () => {
    const opened = await shop();
    const { id, name } = (await demo()).owners[0]!;
    const before = (await owners.list(opened.db, { limit: 100 })).rows.length;
    const { html } = await post(
      opened,
      "/estimates/new",
      await blank(opened, { ...SMALL, "owner.id": id, "owner.name": "" }),
      "take owner",
    );
    const fields = fieldsOn(html);
    expect(fields.get("owner.name")).toBe(name);
    await post(opened, "/estimates/new", fields, "save");
    expect((await owners.list(opened.db, { limit: 100 })).rows).toHaveLength(before);
  });

  it("prints before it is saved, and says why when it cannot", async () => {
    const opened = await shop();
    for (const path of ["/estimates/preview.pdf", "/estimates/bench-preview.pdf", "/estimates/shop-preview.pdf"]) {
      const fields = await blank(opened, SMALL);
      expect((await post(opened, path, fields)).type).toBe("application/pdf");
      fields.set("cells.a1.p:film", "-4");
      const { status, html } = await post(opened, path, fields);
      expect(status).toBe(422);
      expect(html).toContain("count is -4");
    }
  });
});

describe("an estimate on record", () => {
  const open = async () => {
    const opened = await shop();
    const { id } = (await demo()).jobs[0]!.estimates[0]!;
    const { html } = await page(opened, `/estimates/${id}`);
    return { opened, path: `/estimates/${id}`, html, fields: fieldsOn(html) };
  };

  it("opens as it was saved: sent back unchanged, nothing changes but its version", async () => {
    const { opened, path, html, fields } = await open();
    const { status, to } = await post(opened, path, fields, "save");
    expect([status, to]).toEqual([303, `${path}?saved`]);
    expect(total((await page(opened, to)).html)).toBe(total(html));
  });

  it("shows both versions when someone else saved first; saving again keeps yours", async () => {
    const { opened, path, fields } = await open();
    const theirs = new URLSearchParams(fields);
    theirs.set("unit.serial", "THEIRS-1");
    await post(opened, path, theirs, "save");
    fields.set("unit.serial", "OURS-2");
    const { status, html } = await post(opened, path, fields, "save");
    expect(status).toBe(409);
    expect(html).toMatch(/Serial number<\/th><td>OURS-2<\/td><td>THEIRS-1<\/td>/);
    const again = await post(opened, path, fieldsOn(html), "save");
    expect(again.status).toBe(303);
    expect(fieldsOn((await page(opened, again.to)).html).get("unit.serial")).toBe("OURS-2");
  });

  it("prints its documents", async () => {
    const { opened, path } = await open();
    for (const file of [`${path}.pdf`, `${path}/bench-sheet.pdf`, `${path}/shop-copy.pdf`]) {
      const answer = await opened.app.request(`http://localhost:4700${file}`);
      expect(answer.status).toBe(200);
      expect(new TextDecoder("latin1").decode((await answer.arrayBuffer()).slice(0, 5))).toBe("%PDF-");
    }
  });

  it("keeps its rate book until it is asked to take today's", async () => {
    const { opened, path, html, fields } = await open();
    const { id, version: _, ...rateBook } = (await demo()).rateBook;
    const dearer = rateBook.labourClasses.map((one) => ({ ...one, ratePerHour: one.ratePerHour * 2 }));
    await opened.send("PUT", `/api/rate-books/${id}`, { ...rateBook, labourClasses: dearer }, { "if-match": '"1"' });
    expect(total((await page(opened, path)).html)).toBe(total(html));
    const fresh = await post(opened, path, fields, "fresh prices");
    expect(fresh.html).toContain("version 2, and the offers on record today");
    expect(total(fresh.html)).not.toBe(total(html));
    await post(opened, path, fieldsOn(fresh.html), "save");
    expect(total((await page(opened, path)).html)).toBe(total(fresh.html));
  });

  it.each([
    ["a part just added", false],
    ["a part saved without an offer", true],
  ])("sees an offer and an exchange rate that were saved while it is open: %s", async (_, saved) => {
    const { opened, path, fields } = await open();
    const { partTypes } = (await demo()).rateBook;
    const made = await opened.send("POST", "/api/part-kinds", { type: partTypes[0]!.id, name: "Reverb driver pair" });
    const { id: kind } = (await made.json()) as { id: string };
    const lined = await post(opened, path, new URLSearchParams([...fields, ["next.what", "2 Reverb driver pair"]]), "add line");
    const drawn = saved ? await page(opened, (await post(opened, path, fieldsOn(lined.html), "save")).to) : lined;
    const on = "2026-11-20";
    const rate = { currency: "USD", rate: "0.8", on, source: "the shop's bank" };
    const offer = { kind, source: "Farshore", on, currency: "USD", price: 40_000, packSize: 1, leadDays: 9, state: "new" };
    for (const [at, body] of [
      ["/api/exchange-rates", rate],
      ["/api/offers", offer],
    ] as const)
      expect((await opened.send("POST", at, body)).status).toBe(201);
    const again = await post(opened, path, fieldsOn(drawn.html), "recalculate");
    expect(again.html).not.toContain("no exchange rate");
    expect(total(again.html)).not.toBe(total(drawn.html));
    expect(again.html).toContain("Farshore");
  });

  it("takes no line whose figure can be read in two ways: it stays in its box, with what is wrong beside it, and holds up the save", async () => {
    const { opened, path, fields } = await open();
    const typed = "Rewire channel 1 200.50";
    const why = "'1 200.50' can be read in two ways; write 1200.50, or put a comma before 200.50.";
    const sent = new URLSearchParams([...fields, ["next.what", typed]]);
    for (const intent of ["add line", "save"]) {
      const { status, html } = await post(opened, path, sent, intent);
      expect(status).toBe(intent === "save" ? 422 : 200);
      expect(fieldsOn(html).get("next.what")).toBe(typed);
      expect(words(/<p class="wrong" id="next.what-wrong">.*?<\/p>/s.exec(html)![0])).toContain(`Next line: ${why}`);
    }
    sent.set("next.what", "Rewire channel 1, 200.50");
    expect((await post(opened, path, sent, "save")).status).toBe(303);
    const { items } = (await estimates.find(opened.db, path.split("/").at(-1)!))!.input;
    expect(items.at(-1)?.own).toMatchObject({ name: "Rewire channel 1", price: 20_050 });
  });

  it("is saved with what is still to be put right, and says so", async () => {
    const { opened, path, fields } = await open();
    fields.set("cells.supply.p:film", "-2");
    const { status, to } = await post(opened, path, fields, "save");
    expect(status).toBe(303);
    const { html } = await page(opened, to);
    expect(html).toContain("Saved as a draft.");
    expect(fieldsOn(html).get("cells.supply.p:film")).toBe("-2");
    expect((await page(opened, `${path}.pdf`)).status).toBe(409);
  });

  it("does not follow an owner into another's record", async () => {
    const { opened, path, fields } = await open();
    const { owners: people, jobs: work } = await demo();
    const other = people.find(({ id }) => id !== work[0]!.ownerId)!;
    fields.set("owner.id", other.id);
    const filled = fieldsOn((await post(opened, path, fields, "take owner")).html);
    await post(opened, path, filled, "save");
    expect((await owners.find(opened.db, work[0]!.ownerId))?.name).toBe(people.find(({ id }) => id === work[0]!.ownerId)!.name);
    expect((await jobs.find(opened.db, work[0]!.id))?.ownerId).toBe(other.id);
  });
});

describe("bad requests", () => {
  it.each([
    ["/estimates/no-such", 404],
    ["/estimates/no-such.pdf", 404],
    ["/jobs/no-such", 404],
    ["/models/no-such", 404],
    ["/rate-book?version=99", 404],
    ["/rate-book?version=x", 404],
  ])("%s is answered with %i", async (path, status) => {
    expect((await page(await shop(), path)).status).toBe(status);
  });

  it("refuses another media type than a form", async () => {
    const { app } = await shop();
    const answer = await app.request("http://localhost:4700/estimates/new", {
      method: "POST",
      body: "{}",
      headers: { "content-type": "application/json", "sec-fetch-site": "same-origin" },
    });
    expect(answer.status).toBe(415);
  });

  it("never fails on its own side, whatever a field holds", async () => {
    const opened = await shop();
    const fields = await blank(opened, SMALL);
    const bad = [
      "-1",
      "1.5",
      "1e999",
      "9".repeat(400),
      "<script>alert(1)</script>",
      '=HYPERLINK("x")',
      "a\r\nb",
      "Ω≈ç√ 🎹",
      "مرحبا",
      "\u0000",
    ];
    for (const name of [
      "owner.name",
      "unit.value",
      "unit.grade",
      "meta.asOf",
      "meta.token",
      "cells.a1.p:film",
      "boards.small.on%20top",
      "terms.discount",
      "line.x.part",
      "assembly.a1.behind",
    ]) {
      for (const text of bad) {
        const sent = new URLSearchParams(fields);
        sent.set(name, text);
        const { status, html } = await post(opened, "/estimates/new", sent, "recalculate");
        expect([name, text, status]).toEqual([name, text, 200]);
        expect(html).not.toContain("<script>alert");
      }
    }
  });
});

describe("the shop's other pages", () => {
  it.each(["/", "/models", "/rate-book", "/settings", "/estimates/new"])("%s is there", async (path) => {
    const { status, html } = await page(await shop(), path);
    expect(status).toBe(200);
    expect(html).toContain("<h1>");
  });

  it("list every job with the total of its latest estimate", async () => {
    const opened = await shop();
    const { html } = await page(opened, "/");
    const { jobs: work } = await demo();
    for (const { id } of work) expect(html).toContain(`/jobs/${id}`);
    expect(html.match(/<td class="figure">(<span class="hint">(so far|offered) <\/span>)?£/g)).toHaveLength(work.length);
  });

  it("start a new revision from an issued one, and leave the issued one as it is", async () => {
    const opened = await shop();
    const { id, estimates } = (await demo()).jobs[0]!;
    await opened.send("POST", `/api/estimates/${estimates[0]!.id}/issue`, { by: "Orla" }, { "if-match": '"1"' });
    expect((await opened.app.request(`http://localhost:4700/estimates/${estimates[0]!.id}`)).status).toBe(303);
    const { status, to } = await post(opened, `/jobs/${id}/revisions`, new URLSearchParams());
    expect(status).toBe(303);
    expect((await page(opened, to)).html).toContain("revision 2");
  });

  it("save the shop's settings, and name what is wrong beside its field", async () => {
    const opened = await shop();
    const { html } = await page(opened, "/settings");
    const fields = new URLSearchParams({
      version: /name="version" value="(\d+)"/.exec(html)![1]!,
      name: "Lanternfold",
      currency: "GBP",
      locale: "not a tag!",
      timeZone: "Europe/London",
      paper: "A4",
      rateBookId: "bench-book",
      benchQueueDays: "4",
    });
    const refused = await post(opened, "/settings", fields);
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('<a href="#locale">');
    fields.set("locale", "de-DE");
    expect((await post(opened, "/settings", fields)).status).toBe(303);
    expect((await page(opened, "/")).html).toContain("Lanternfold");
    fields.set("name", "Too late");
    const late = await post(opened, "/settings", fields);
    expect(late.status).toBe(409);
    expect(late.html).toContain("Save again to keep yours");
  });
});
