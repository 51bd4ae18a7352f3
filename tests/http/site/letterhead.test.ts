/** The shop's letterhead and logo, and the language and paper of what an owner gets, by the pages and the API. */
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { mismatchText } from "../../../src/acts/checked/mismatch.js";
import { estimates } from "../../../src/records/estimates.js";
import { issues } from "../../../src/records/issues.js";
import { logos } from "../../../src/records/logos.js";
import { shopSettings } from "../../../src/records/settings.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { png } from "../../documents/picture/files.js";
import { formsOn, type Seen, words } from "../support/noScript.js";
import { come, HAND, issued, linkOn, type Shop, type Story, story, totalOn } from "../support/story.js";

const picture = (blue: number) => png({ width: 60, height: 20, colour: "rgb", at: (x) => [x, 0, blue] });
const latin = async (answer: Response) => Buffer.from(await answer.arrayBuffer()).toString("latin1");

async function upload({ app }: Shop, file: Uint8Array, version: string, intent = "keep") {
  const body = new FormData();
  body.set("version", version);
  body.set("intent", intent);
  body.set("file", new File([file as Uint8Array<ArrayBuffer>], "logo.png"));
  const answer = await app.request("http://localhost:4700/settings/logo", {
    method: "POST",
    body,
    headers: { "sec-fetch-site": "same-origin", accept: "text/html" },
  });
  return { status: answer.status, html: await answer.text() };
}

const onPage = async ({ app }: Shop, path: string) => (await app.request(`http://localhost:4700${path}`)).text();
const versionOf = async (opened: Shop) => /name="version" value="(\d+)"/.exec(await onPage(opened, "/settings/logo"))![1]!;
const ticked = ({ html }: Seen, name: string) =>
  [...html.matchAll(new RegExp(`name="${name}" value="([^"]+)"`, "g"))].map(([, id]) => id!);
const draftPdf = async ({ opened, estimateId }: Story) =>
  latin(await opened.app.request(`http://localhost:4700/estimates/${estimateId}.pdf`));

describe("the logo", () => {
  it("stands on drafts from then on; what was issued keeps its own, and verify agrees", async () => {
    const told = await story();
    const { opened, estimateId } = told;
    expect(await draftPdf(told)).not.toContain("/Image");
    expect((await upload(opened, picture(10), await versionOf(opened))).status).toBe(303);
    const issuedWith = /src="\/api\/logos\/([0-9a-f]{64})"/.exec(await onPage(opened, "/settings/logo"))![1]!;
    expect(await draftPdf(told)).toContain("/Image");
    await issued(told);
    const kept = Buffer.from((await issues.pdf(opened.db, estimateId))!);

    expect((await upload(opened, picture(99), await versionOf(opened))).status).toBe(303);
    expect(await onPage(opened, "/settings/logo")).not.toContain(issuedWith);
    const again = await opened.call(`/api/estimates/${estimateId}/estimate.pdf`);
    if (again.status === 200) expect(kept.equals(Buffer.from(await again.arrayBuffer()))).toBe(true);
    expect(Buffer.from(await draftPdf(told), "latin1").equals(kept)).toBe(true);
    const copy = await latin(await opened.app.request(`http://localhost:4700/estimates/${estimateId}/shop-copy.pdf`));
    const pixels = Buffer.from((await logos.find(opened.db, issuedWith))!.bytes).toString("latin1");
    expect(copy).toContain(pixels.slice(pixels.indexOf("IDAT") + 4, -16));
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();

    await opened.db.run(sql`UPDATE logos SET bytes = x'00' WHERE id = ${issuedWith}`);
    const { mismatch } = await verifyShop(opened.db);
    expect(mismatchText(mismatch!.what)).toBe(`The logo ${issuedWith} is not the picture of that hash; it was changed.`);
  });

  it("is refused beside its field when it is none, and can be taken off", async () => {
    const { opened } = await story();
    const refused = await upload(opened, Buffer.from("GIF89a"), await versionOf(opened));
    expect(refused.status).toBe(422);
    expect(words(refused.html)).toContain("Logo: the file is neither PNG nor JPEG by its content");
    expect(words((await upload(opened, new Uint8Array(200_001), await versionOf(opened))).html)).toContain("at most 200 kB");
    expect(words((await upload(opened, new Uint8Array(), await versionOf(opened))).html)).toContain("choose a file first");
    await upload(opened, picture(1), await versionOf(opened));
    expect((await upload(opened, picture(2), "1")).status).toBe(422);
    expect((await upload(opened, new Uint8Array(), await versionOf(opened), "take off")).status).toBe(303);
    expect(words(await onPage(opened, "/settings/logo"))).toContain("No logo yet");
  });

  it("comes in through the API too, once however often it is sent, and the settings name it", async () => {
    const { opened } = await story();
    const send = (body: Uint8Array) =>
      opened.call("/api/logos", {
        method: "POST",
        body: body as Uint8Array<ArrayBuffer>,
        headers: { "content-type": "image/png" },
      });
    const [first, second] = [await send(picture(5)), await send(picture(5))];
    const { id, ...facts } = (await first.json()) as { id: string };
    expect([first.status, facts]).toEqual([201, { kind: "png", width: 60, height: 20 }]);
    expect(await second.json()).toMatchObject({ id });
    const wrong = await send(Buffer.from("no picture"));
    expect([wrong.status, await wrong.json()]).toMatchObject([422, { errors: [{ name: "picture unreadable" }] }]);
    expect((await opened.call(`/api/logos/${id}`)).headers.get("content-type")).toBe("image/png");
    expect((await opened.call("/api/logos/none")).status).toBe(404);

    const {
      version,
      id: _,
      createdAt: __,
      updatedAt: ___,
      ...settings
    } = (await (await opened.call("/api/settings")).json()) as Record<string, unknown>;
    const put = (value: object) => opened.send("PUT", "/api/settings", { ...settings, ...value }, { "if-match": `"${version}"` });
    expect((await put({ logo: "0".repeat(64) })).status).toBe(422);
    expect((await put({ profileTerms: { nowhere: ["x"] } })).status).toBe(422);
    expect((await put({ footer: ["1", "2", "3", "4", "5"] })).status).toBe(422);
    expect(
      (await put({ logo: id, footer: ["One line"], language: "de", profileTerms: { "us-ca": ["Only there"] } })).status,
    ).toBe(200);
  });
});

describe("the letterhead", () => {
  it("keeps everything typed when one field is wrong, and stands on the paper when it is right", async () => {
    const told = await story();
    const typed = {
      footer: "Bank of Nowhere, account 0000\nOpen by appointment",
      "profileTerms.de": "Nur in Deutschland",
      terms: "Everywhere else",
      locale: "not a tag!",
    };
    const page = await told.desk.get("/settings");
    const refused = await told.desk.press(page, "Save", typed);
    expect(refused.status).toBe(422);
    for (const text of ["Open by appointment", "Nur in Deutschland", "Everywhere else", "not a tag!"])
      expect(refused.html).toContain(text);
    const saved = await told.desk.press(refused, "Save", { locale: "en-GB" });
    expect(words(saved.html)).toContain("Saved.");
    expect(saved.html).toContain("Nur in Deutschland");
    const shop = (await (await told.opened.call("/api/settings")).json()) as Record<string, unknown>;
    expect(shop).toMatchObject({ footer: typed.footer.split("\n"), profileTerms: { de: ["Nur in Deutschland"] } });
  });
});

describe("the papers of one owner", () => {
  it("are in the owner's language and on the draft's paper, and stay so once issued", async () => {
    const told = await story();
    const { opened, job, estimateId } = told;
    expect(await draftPdf(told)).toContain("/Lang(en-GB)");
    const page = await told.desk.get(`${job}/papers`);
    const refused = await told.desk.press(page, "Save", { locale: "?" });
    expect(words(refused.html)).toContain("give a language tag such as en-GB");
    const long = await told.desk.press(page, "Save", { summary: "x".repeat(100_000) });
    expect(long.html).toContain('<a href="#words">');
    const saved = await told.desk.press(refused, "Save", { language: "de", locale: "de-AT", paper: "Letter" });
    expect(words(saved.html)).toContain("Saved.");
    const draft = await draftPdf(told);
    expect(draft).toContain("/Lang(de-AT)");
    expect(draft).toContain("/MediaBox[0 0 612 792]");
    const xml = await (await opened.call(`/api/estimates/${estimateId}/quotation.xml`)).text();
    expect(xml).toContain("Nie mehr als, inkl. Umsatzsteuer");

    await told.desk.press(await told.desk.get(`${job}/issue`), "Issue revision 1", { by: HAND });
    await told.desk.press(await told.desk.get(`${job}/papers`), "Save", { language: "", locale: "" });
    const bench = await latin(await opened.app.request(`http://localhost:4700/estimates/${estimateId}/bench-sheet.pdf`));
    expect(bench).toMatch(/\/Lang\(en\)/);
    expect(await draftPdf(told)).toContain("/Lang(de-AT)");
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
  });

  it("follow the language's usual way of writing figures where only the language was chosen", async () => {
    const told = await story();
    await told.desk.press(await told.desk.get(`${told.job}/papers`), "Save", { language: "de" });
    expect(await draftPdf(told)).toContain("/Lang(de-DE)");
  });
});

describe("what the owner gets", () => {
  const SUMMARY = "The supply hums because its capacitors are dry. We will renew it.";
  const pagesOf = (pdf: string) => pdf.match(/\/Type\/Page\/Parent/g)!.length;

  it("is a letter of one page, and the estimate can show more; the technician's words stand first on the owner's page", async () => {
    const told = await story();
    const { desk, job } = told;
    // Without words of the technician's all of the work is named, which takes room.
    expect(pagesOf(await draftPdf(told))).toBe(2);
    expect(words((await desk.get(`${job}/issue`)).html)).toContain("say in two sentences what is wrong and what you will do");
    await desk.press(await desk.get(`${job}/papers`), "Save", { summary: SUMMARY });
    expect(pagesOf(await draftPdf(told))).toBe(1);
    await desk.press(await desk.get(`${job}/papers`), "Save", { detail: "every line" });
    expect(pagesOf(await draftPdf(told))).toBeGreaterThan(3);
    const { seen } = await come(told, await issued(told));
    const page = words(seen.html);
    expect(page.indexOf(SUMMARY)).toBeGreaterThan(0);
    // They take the place of what was found on the letter alone.
    expect(page).toContain("We found: Supply ripple high on both rails");
    expect(page.indexOf(SUMMARY)).toBeLessThan(page.indexOf("Never more than"));
    await told.opened.send("POST", `/api/jobs/${told.jobId}/estimates`, {});
    const [form] = formsOn((await desk.get(`${job}/papers`)).html);
    expect(form!.fields).toEqual(
      expect.arrayContaining([
        ["summary", SUMMARY],
        ["detail", "every line"],
      ]),
    );
  });

  it("is as much as the shop usually shows", async () => {
    const told = await story();
    await told.desk.press(await told.desk.get("/settings"), "Save", { detail: "by assembly" });
    expect(pagesOf(await draftPdf(told))).toBeGreaterThan(1);
  });

  it("tells of letters that only a revision prints, such as why work is new", async () => {
    const told = await story();
    const { desk, job } = told;
    await issued(told);
    const fault = { reason: "drops out when warm 🔥", part: "Voltage regulator", where: "Supply board" };
    await desk.press(await desk.get(`${job}/extra-fault`), "Add it to a draft of revision 2", fault);
    const page = await desk.get(`${job}/issue`);
    expect(words(page.html)).toContain("A line of the work: the papers have no letters for 🔥");
    const held = await desk.press(page, "Issue revision 2", { by: HAND });
    expect(held.html).toContain('href="#spellings.0.latin"');
    linkOn(await desk.press(held, "Issue revision 2", { by: HAND, "spellings.0.latin": "drops out when hot" }));
    expect((await estimates.ofJob(told.opened.db, told.jobId)).at(-1)!.input.paperwork!.spellings).toEqual({
      [fault.reason]: "drops out when hot",
    });
  });

  it("tells of letters the paper cannot print before it is issued, and prints them as they are spelled", async () => {
    const told = await story();
    const { opened, job, desk, estimateId } = told;
    await opened.db.run(sql`UPDATE owners SET name = '王小明' WHERE name LIKE 'Žofie%'`);
    const page = await desk.get(`${job}/issue`);
    expect(words(page.html)).toContain("Owner's name: the papers have no letters for 王, 小 and 明 in '王小明'");
    const held = await desk.press(page, "Issue revision 1", { by: HAND });
    expect(words(held.html)).toContain("Please look at this again");
    expect(held.html).toContain('href="#spellings.0.latin"');
    expect(await issues.find(opened.db, estimateId)).toBeUndefined();
    await desk.press(held, "Issue revision 1", { by: HAND, "spellings.0.latin": "Wáng Xiǎomíng" });
    const issue = await opened.call(`/api/estimates/${estimateId}`);
    expect(await issue.json()).toMatchObject({
      issuedBy: HAND,
      input: { paperwork: { owner: { name: "王小明" }, spellings: { 王小明: "Wáng Xiǎomíng" } } },
    });
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
  });

  it("refuses a program's issue by field and letters, unless it takes marks in their place", async () => {
    const { opened, estimateId } = await story();
    await opened.db.run(sql`UPDATE owners SET name = 'שלום' WHERE name LIKE 'Žofie%'`);
    const etag = (await opened.call(`/api/estimates/${estimateId}`)).headers.get("etag")!;
    const issue = (body: object) =>
      opened.send("POST", `/api/estimates/${estimateId}/issue`, { by: HAND, ...body }, { "if-match": etag });
    const refused = await issue({});
    expect([refused.status, await refused.json()]).toMatchObject([
      409,
      { type: "/problems/letters-missing", errors: [{ pointer: "/input/paperwork/owner/name", name: "letter unprintable" }] },
    ]);
    expect((await issue({ marks: true })).status).toBe(200);
  });
});

describe("what a German owner gets", () => {
  it("is German on the page, in the words that go on record, in the mail and in the calendar", async () => {
    const told = await story();
    const { desk, job, opened } = told;
    await desk.press(await desk.get(`${job}/papers`), "Save", { language: "de" });
    const issue = await desk.press(await desk.get(`${job}/issue`), "Issue revision 1", { by: HAND });
    expect(decodeURIComponent(/href="mailto:[^"]*"/.exec(issue.html)![0])).toContain(
      "unser schriftlicher Kostenvoranschlag ist fertig",
    );
    const { owner, seen } = await come(told, linkOn(issue));
    expect(seen.html).toContain('<html lang="de">');
    const page = words(seen.html);
    // Names, grades and taxes of the first rate book too.
    for (const text of ["Ersetzen", "Tastenkontakte reinigen", "Umsatzsteuer 20 %"]) expect(page).toContain(text);
    // The demo organ is dangerous inside, which the letter says too.
    expect(page).toContain("Vorsicht");
    for (const text of ["Nie mehr als", "Was wir finden können", "Eine Frage stellen", "Dezember 2026"])
      expect(page).toContain(text);
    for (const text of ["Never more than", "What we may find", "Ready in about", "Your answer", "Total"])
      expect(page).not.toContain(text);
    expect((await owner.get("/o/calendar.ics")).html).toContain("Letzter Tag");
    const [, button] = /<button type="submit" name="answer" value="agreed"[^>]*>([^<]+)</.exec(seen.html)!;
    const agree = button!.replaceAll(/\s+/g, " ");
    const nameless = await owner.press(seen, agree, { name: "" });
    expect(words(nameless.html)).toContain("Ihr vollständiger Name fehlt");
    expect(words((await owner.press(seen, "Frage abschicken", { text: " " })).html)).toContain("Ihre Frage fehlt");
    const check = await owner.press(seen, agree, { name: "Žofie Kapradinová" });
    const [, shown] = /<blockquote>([^<]+)</.exec(check.html)!;
    expect(shown).toMatch(/^Ich stimme dem Kostenvoranschlag J-\d{4}-0001, Fassung 1, vom .* zu: Führen Sie/);
    const done = await owner.press(check, agree);
    expect(words(done.html)).toContain("Zugestimmt");
    const { items } = (await (await opened.call(`/api/jobs/${told.jobId}/agreements`)).json()) as {
      items: { wording: string }[];
    };
    expect(items[0]!.wording).toBe(shown);
    const again = await owner.press(seen, /^Ablehnen|ablehnen|nicht zu/, { name: "Žofie Kapradinová" });
    expect(words(again.html)).not.toMatch(/Ask the shop|agreed on/);
  });
});

describe("options side by side", () => {
  it("are sets that the shop names and the owner picks one of; the answer records its options", async () => {
    const told = await story(2);
    const { desk, job, opened } = told;
    const page = await desk.get(`${job}/papers`);
    const ids = [...page.html.matchAll(/name="packages\.1\.options" value="([^"]+)"/g)].map(([, id]) => id!);
    expect(ids.length).toBeGreaterThan(2);
    const sets = { "packages.0.name": "Minimal", "packages.1.name": "Full", "packages.1.options": ids };
    const saved = await desk.press(page, "Save", sets);
    expect(saved.status).toBe(200);
    expect(formsOn(saved.html)[0]!.fields.filter(([name]) => name === "packages.1.options")).toHaveLength(ids.length);
    const { owner, seen } = await come(told, await issued(told));
    const full = await owner.press(seen, "Take Full");
    expect(totalOn(full.html)).toMatch(/£[\d,.]+/);
    expect(words(full.html).replaceAll(/\s+/g, " ")).toContain(`Full ${totalOn(full.html)}`);
    const check = await owner.press(full, `Agree to this work for ${totalOn(full.html)}`, { name: "Orla Thistlewick" });
    await owner.press(check, `Agree to this work for ${totalOn(full.html)}`);
    const { items } = (await (await opened.call(`/api/jobs/${told.jobId}/agreements`)).json()) as {
      items: { chosen: string[] }[];
    };
    expect([...items[0]!.chosen].sort()).toEqual([...ids].sort());
  });

  it("asks no more about the shop's own names that it said are right as they stand", async () => {
    const { desk, job, opened } = await story();
    await desk.press(await desk.get(`${job}/papers`), "Save", { language: "de" });
    const asked = "of your own will be printed as written";
    expect(words((await desk.get(`${job}/issue`)).html)).toContain(asked);
    const page = await desk.get(`${job}/papers`);
    const [, text] = /name="names\.0\.text" value="([^"]+)"/.exec(page.html)!;
    await desk.press(page, "Save", { "names.1.said": "Eigener Name", namesRight: "yes" });
    expect(words((await desk.get(`${job}/issue`)).html)).not.toContain(asked);
    const names = Object.values((await shopSettings(opened.db)).names!.de!);
    expect([names.includes(text!), names.includes("Eigener Name")]).toEqual([true, true]);
  });

  it("tells an owner who reads German from the second revision on of no change where words were only translated", async () => {
    const told = await story();
    const { desk, job } = told;
    const add = async (revision: number, fields: Record<string, string>) =>
      desk.press(
        await desk.get(`${job}/extra-fault`),
        revision === 1 ? /^Add it/ : `Add it to a draft of revision ${revision}`,
        fields,
      );
    await add(1, { reason: "the lead is cracked", own: "Renew the mains lead", price: "30" });
    await come(told, await issued(told));
    await add(2, { reason: "a knob is missing", own: "Fit a knob", price: "5" });
    await desk.press(await desk.get(`${job}/papers`), "Save", { language: "de" });
    const page = await desk.get(`${job}/papers`);
    const row = (text: string) => new RegExp(`name="names\\.(\\d+)\\.text" value="${text}"`).exec(page.html)?.[1];
    expect(words(page.html)).toContain("Your own names, in German");
    expect(words(page.html)).toContain(
      "Revision 1 was issued in English and stays so, page and PDF; this is for what you issue next.",
    );
    const lead = { [`names.${row("Renew the mains lead")}.said`]: "Netzkabel erneuern" };
    await desk.press(page, "Save", { ...lead, [`names.${row("the lead is cracked")}.said`]: "Das Kabel ist gerissen" });
    const { seen } = await come(told, await issued(told));
    const said = words(seen.html);
    for (const text of ["Netzkabel erneuern", "Das Kabel ist gerissen", "Fit a knob"]) expect(said).toContain(text);
    for (const text of ["Renew the mains lead", "the lead is cracked", "Berichtigt"]) expect(said).not.toContain(text);
  });

  it("has the shop's own names in German once they were given, which later papers know and issued ones keep", async () => {
    const told = await story();
    const { desk, job, opened } = told;
    await desk.press(await desk.get(`${job}/papers`), "Save", { language: "de" });
    expect(words((await desk.get(`${job}/issue`)).html)).toContain(
      "of your own will be printed as written, though the owner reads German",
    );
    const page = await desk.get(`${job}/papers`);
    const rows = [...page.html.matchAll(/name="names\.(\d+)\.text" value="([^"]+)"/g)].map(
      ([, row, text]) => [text!, row!] as const,
    );
    const rail = new Map(rows).get("Organ contact rail");
    expect(rail).toBeDefined();
    // What the first rate book calls things is German already.
    expect(rows.map(([text]) => text)).not.toContain("Replace");
    await desk.press(page, "Save", { [`names.${rail}.said`]: "Kontaktleiste der Orgel" });
    expect(await (await opened.call("/api/settings")).json()).toMatchObject({
      names: { de: { "Organ contact rail": "Kontaktleiste der Orgel" } },
    });
    const { owner, seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain("Kontaktleiste der Orgel");
    expect(words(seen.html)).not.toContain("Organ contact rail");
    const work = ticked(seen, "work");
    const check = await owner.press(seen, /^Ich stimme|^Zustimmen|zustimmen/, { name: "Žofie Kapradinová", work: work.slice(1) });
    expect(words(check.html)).not.toContain("Organ contact rail");
    // Forgotten by the shop, it stays on what was issued.
    await opened.send("POST", `/api/jobs/${told.jobId}/estimates`, {});
    const anew = await desk.get(`${job}/papers`);
    expect(anew.html).toContain('value="Kontaktleiste der Orgel"');
    await desk.press(anew, "Save", { [`names.${rail}.said`]: "" });
    expect((await (await opened.call("/api/settings")).json()) as object).not.toMatchObject({
      names: { de: { "Organ contact rail": expect.anything() } },
    });
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
    expect(words((await owner.get(seen.path)).html)).toContain("Kontaktleiste der Orgel");
  });
});
