/** Photos as a browser without script meets them: sent as they are, cleaned, shown, printed and seen by the owner. */
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { estimates } from "../../../src/records/estimates.js";
import { photoFolder } from "../../../src/records/photoFolder.js";
import { listPhotos, photos } from "../../../src/records/photos.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { documented } from "../support/documented.js";
import { visitor, words } from "../support/noScript.js";
import { exif, jpeg, padded, png, webp, withSegments } from "../support/pictures.js";
import { demo, shop } from "../support/shop.js";
import { come, issued, type Story } from "../support/story.js";

async function openStory(): Promise<Story & { readonly folder: string }> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-photos-"));
  onTestFinished(() => rm(folder, { recursive: true }));
  const store = photoFolder(folder);
  const opened = await shop({ openPhotos: () => store });
  const { id, estimates: kept } = (await demo()).jobs[0]!;
  return { opened, job: `/jobs/${id}`, jobId: id, estimateId: kept[0]!.id, desk: visitor(opened), folder };
}

type Sent = Readonly<Record<string, string | readonly (readonly [name: string, bytes: Uint8Array])[]>>;

async function add({ opened, job }: Story, sent: Sent) {
  const body = new FormData();
  for (const [name, value] of Object.entries(sent)) {
    if (typeof value === "string") body.append(name, value);
    else for (const [file, bytes] of value) body.append(name, new File([bytes as Uint8Array<ArrayBuffer>], file));
  }
  const headers = { "sec-fetch-site": "same-origin", accept: "text/html" };
  const answer = await opened.app.request(`http://localhost:4700${job}/photos`, { method: "POST", body, headers });
  return { status: answer.status, html: await answer.text(), to: answer.headers.get("location") };
}

/** The boxes stand outside their form and name it. */
async function tick({ desk, job }: Story, ids: readonly string[]) {
  const { html } = await desk.get(`${job}/photos`);
  for (const id of ids) expect(html).toMatch(new RegExp(`id="onPaper-${id}" name="onPaper" value="${id}" form="on-paper"`));
  return desk.send(
    `${job}/photos/on-paper`,
    ids.map((id) => ["onPaper", id] as const),
  );
}

const idsOf = async ({ opened }: Story) => (await listPhotos(opened.db)).map(({ id }) => id);

const TURNED = withSegments(jpeg(), exif(6));
const TOKEN = "01a19bb5-69c0-70ec-b54a-c28f74ca77af";

describe("photos of a job", () => {
  it("are added once, cleaned, and shown upright with their type and nothing else allowed", async () => {
    const at = await openStory();
    const sent = {
      token: TOKEN,
      photo: [["front.png", TURNED]],
      caption: "Scuffed <front>",
      by: "Tamsin",
      takenOn: "2026-11-24",
    } as const;
    const added = await add(at, sent);
    expect([added.status, added.to]).toEqual([303, `${at.job}/photos?said=added`]);
    await add(at, sent);
    const [photo, ...more] = await listPhotos(at.opened.db);
    expect(more).toEqual([]);
    expect(photo).toMatchObject({
      of: "intake",
      mime: "image/jpeg",
      width: 8,
      height: 4,
      turn: 6,
      by: "Tamsin",
      jobId: at.jobId,
    });

    const page = await at.desk.get(`${at.job}/photos`);
    expect(page.html).toContain(`<img src="/photos/${photo!.id}" width="4" height="8" alt="Scuffed &lt;front&gt;"`);
    const shown = await at.opened.app.request(`http://localhost:4700/photos/${photo!.id}`);
    expect([...new Uint8Array(await shown.arrayBuffer())].length).toBe(photo!.size);
    expect(Object.fromEntries(shown.headers)).toMatchObject({
      "content-type": "image/jpeg",
      "x-content-type-options": "nosniff",
      "cache-control": "private, max-age=86400, immutable",
      "content-security-policy": "default-src 'none'; sandbox; frame-ancestors 'none'",
    });
    expect(words((await at.desk.get(at.job)).html)).toMatch(/Photos\s+1/);
    expect(words((await at.desk.get(`${at.job}/trail`)).html)).toContain("Tamsin added a photo.");
  });

  it("are refused by name, none of them kept, and what was typed stays", async () => {
    const at = await openStory();
    const files = [
      ["a.jpg", jpeg()],
      ["b.jpg", png(50_000, 50_000, [], 1)],
    ] as const;
    const bomb = await add(at, { photo: files, caption: "Both sides" });
    expect(bomb.status).toBe(422);
    expect(words(bomb.html)).toContain(
      "b.jpg: it is 50000 by 50000 pixels, and 40 million is the most; make it smaller. None was added.",
    );
    expect(bomb.html).toContain('value="Both sides"');
    const wrong = await add(at, {
      photo: [["holiday.jpg", new Uint8Array(Buffer.from("<script>alert(1)</script>"))]],
      takenOn: "24.11.26",
    });
    expect(words(wrong.html)).toContain('Taken on is "24.11.26"; write a day as year, month, day');
    const holiday = await add(at, { photo: [["holiday.jpg", new Uint8Array(Buffer.from("<script>alert(1)</script>"))]] });
    expect(words(holiday.html)).toContain("holiday.jpg: this is no JPEG, PNG or WebP");
    const gone = await add(at, { photo: [["a.jpg", jpeg()]], shows: "fault:gone" });
    expect(words(gone.html)).toContain("What they show: this work is not part");
    expect(words((await add(at, { photo: [] })).html)).toContain("Photos to add: no photo was chosen");
    expect([await listPhotos(at.opened.db), await readdir(at.folder)]).toEqual([[], []]);
  });

  it("are not read at all where the body is of 50 MB", async () => {
    const at = await openStory();
    const answer = await at.opened.app.request(`http://localhost:4700${at.job}/photos`, {
      method: "POST",
      headers: {
        "content-length": String(50 * 1024 * 1024),
        "content-type": "multipart/form-data; boundary=x",
        "sec-fetch-site": "same-origin",
        accept: "text/html",
      },
      body: "--x",
    });
    expect([answer.status, words(await answer.text())]).toEqual([413, expect.stringContaining("At most 9 MiB are taken here.")]);
  });

  it("are missed clearly where no place for them is set up, and the rest works", async () => {
    const opened = await shop();
    const { id } = (await demo()).jobs[0]!;
    const desk = visitor(opened);
    expect(words((await desk.get(`/jobs/${id}/photos`)).html)).toContain("No place for photos is set up");
    expect((await add({ opened, job: `/jobs/${id}` } as Story, { photo: [["a.jpg", jpeg()]] })).status).toBe(503);
    expect((await desk.get(`/jobs/${id}`)).status).toBe(200);
  });
});

it("adds other photos where the form is gone back to, and no more than a job may have", async () => {
  const at = await openStory();
  await add(at, { token: TOKEN, photo: [["a.jpg", jpeg()]] });
  await add(at, { token: TOKEN, photo: [["b.jpg", TURNED]] });
  expect((await listPhotos(at.opened.db)).map(({ turn }) => turn)).toEqual([1, 6]);
  const many = Array.from({ length: 199 }, (_, index) => [`${index}.jpg`, jpeg()] as const);
  const refused = await add(at, { photo: many });
  expect([refused.status, words(refused.html)]).toEqual([
    422,
    expect.stringContaining("Photos of one job: 200 is the most; take some out first."),
  ]);
  expect([(await listPhotos(at.opened.db)).length, (await readdir(at.folder)).length]).toEqual([2, 2]);
});

describe("photos sent by programs", () => {
  const query = "of=fault&item=w01&caption=Leaked%20cell&takenOn=2026-11-24&by=Tamsin";

  async function program(at: Story) {
    const call = documented(at.opened.app);
    const post = (path: string, body: BodyInit, more: Record<string, string> = {}) =>
      call(path, { method: "POST", body, headers: { "content-type": "application/json", ...more } });
    const photo = (body: Uint8Array, more: Record<string, string> = {}, said = query) =>
      post(`/api${at.job}/photos?${said}`, body as Uint8Array<ArrayBuffer>, { "content-type": "image/jpeg", ...more });
    return { call, post, photo };
  }

  it("are added by their content under one key once, chosen for the paper, and taken out", async () => {
    const at = await openStory();
    const { call, post, photo } = await program(at);
    const key = { "idempotency-key": '"first"' };
    const added = await photo(TURNED, key);
    const one = (await added.json()) as { id: string };
    expect([added.status, added.headers.get("location"), one]).toEqual([
      201,
      `/api/photos/${one.id}`,
      expect.objectContaining({ of: "fault", item: "w01", caption: "Leaked cell", takenOn: "2026-11-24", by: "Tamsin", turn: 6 }),
    ]);
    expect(await (await photo(TURNED, key)).json()).toEqual(one);
    expect((await photo(jpeg(), key)).status).toBe(422);
    expect((await photo(TURNED, key, `${query}&by=Ottilie`)).status).not.toBe(201);
    expect(((await (await call(`/api${at.job}/photos`)).json()) as { items: unknown[] }).items).toEqual([one]);
    expect((await readdir(at.folder)).length).toBe(1);

    const chosen = await post(`/api${at.job}/photos/on-paper`, JSON.stringify({ onPaper: [one.id] }));
    expect([chosen.status, await chosen.json()]).toEqual([200, { onPaper: [one.id] }]);
    const draft = () => estimates.find(at.opened.db, at.estimateId);
    expect((await draft())!.input.paperwork?.photos).toMatchObject([{ id: one.id, caption: "Leaked cell" }]);
    const out = await post(`/api${at.job}/photos/${one.id}/removal`, "{}");
    expect([out.status, await out.json()]).toEqual([201, expect.objectContaining({ photoId: one.id, jobId: at.jobId })]);
    expect((await draft())!.input.paperwork?.photos).toBeUndefined();
    expect((await post(`/api${at.job}/photos/${one.id}/removal`, "{}")).status).toBe(404);
    expect((await verifyShop(at.opened.db)).mismatch).toBeUndefined();
  });

  it("are refused by the sentences of the page, with nothing kept", async () => {
    const at = await openStory();
    const { post, photo } = await program(at);
    const said = async (answer: Response) => [answer.status, await answer.text()];
    expect(await said(await photo(png(50_000, 50_000, [], 1)))).toEqual([
      422,
      expect.stringContaining("it is 50000 by 50000 pixels, and 40 million is the most"),
    ]);
    expect(await said(await photo(jpeg(), {}, "of=fault&item=gone"))).toEqual([422, expect.stringContaining('"/item"')]);
    expect(await said(await photo(jpeg(), {}, "of=attic"))).toEqual([400, expect.stringContaining('"parameter":"of"')]);
    expect(await said(await photo(jpeg(), {}, "of=intake&takenOn=2026-13-01"))).toEqual([
      400,
      expect.stringContaining("takenOn"),
    ]);
    expect((await photo(jpeg(), { "content-type": "application/json" })).status).toBe(415);
    expect(
      (await post("/api/jobs/none/photos?of=intake", jpeg() as Uint8Array<ArrayBuffer>, { "content-type": "image/png" })).status,
    ).toBe(404);
    expect([await listPhotos(at.opened.db), await readdir(at.folder)]).toEqual([[], []]);

    const wide = (await (await photo(png(2400, 3))).json()) as { id: string };
    expect(await said(await post(`/api${at.job}/photos/on-paper`, JSON.stringify({ onPaper: [wide.id] })))).toEqual([
      422,
      expect.stringMatching(/"\/onPaper\/0".*2000 a side is the most in a PDF/),
    ]);
  });
});

describe("photos in the estimate", () => {
  it("are part of what is issued and hashed, printed the same each time, seen by its owner alone, and kept when taken out", async () => {
    const at = await openStory();
    const { db, app } = at.opened;
    await add(at, {
      token: TOKEN,
      photo: [
        ["a.jpg", TURNED],
        ["b.png", png(6, 6)],
      ],
      caption: "Front",
    });
    const before = (await estimates.find(db, at.estimateId))!;
    const kept = await tick(at, await idsOf(at));
    expect(words(kept.html)).toContain("Kept: the ticked photos are printed with the draft.");
    const draft = (await estimates.find(db, at.estimateId))!;
    expect(draft.contentHash).not.toBe(before.contentHash);
    expect(draft.sheet).toEqual(before.sheet);
    const pdf = async (path: string) => Buffer.from(await (await app.request(`http://localhost:4700${path}`)).arrayBuffer());
    const [first, again] = [await pdf(`/estimates/${at.estimateId}.pdf`), await pdf(`/estimates/${at.estimateId}.pdf`)];
    expect(first.equals(again)).toBe(true);
    expect(first.toString("latin1").match(/\/Subtype ?\/Image/g)).toHaveLength(2);

    const link = await issued(at);
    const [one] = await listPhotos(db);
    await at.desk.press(await at.desk.get(`${at.job}/photos`), "Remove this photo", {});
    expect((await listPhotos(db)).length).toBe(1);
    expect((await app.request(`http://localhost:4700/photos/${one!.id}`)).status).toBe(404);
    expect((await verifyShop(db)).mismatch).toBeUndefined();

    expect((await visitor(at.opened).get(`/o/photo?revision=1&id=${one!.id}`)).path).not.toContain("photo");
    const { owner, seen } = await come(at, link);
    const srcs = [...seen.html.matchAll(/<img src="([^"]+)"/g)].map((match) => match[1]!.replaceAll("&amp;", "&"));
    expect(srcs).toHaveLength(2);
    for (const src of srcs) {
      const shown = await owner.get(src);
      expect([shown.status, shown.headers.get("cache-control")]).toEqual([200, "private, no-store"]);
    }
    expect((await owner.get("/o/photo?revision=1&id=another")).status).toBe(404);
  });

  it("are refused by name where a PDF cannot carry them, and nothing is issued where one is lost", async () => {
    const at = await openStory();
    await add(at, {
      token: TOKEN,
      photo: [
        ["a.webp", webp()],
        ["b.png", png(2400, 3)],
        ["c.jpg", jpeg()],
      ],
    });
    const [first, second, third] = (await idsOf(at)) as [string, string, string];
    const refused = await tick(at, [first, second]);
    expect(refused.status).toBe(422);
    expect(words(refused.html)).toContain("Photo 1: a PDF cannot carry a picture of this kind");
    expect(words(refused.html)).toContain("Photo 2: it is 2400 by 3 pixels, and 2000 a side is the most in a PDF");
    await tick(at, [third]);
    await photoFolder(at.folder).remove(third);
    const held = await at.desk.press(await at.desk.get(`${at.job}/issue`), "Issue revision 1", { by: "Tamsin" });
    expect([held.status, words(held.html)]).toEqual([409, expect.stringContaining("its file is not where photos are kept")]);
    expect((await estimates.find(at.opened.db, at.estimateId))?.issuedAt).toBeUndefined();
  });

  it("leave a draft when they are taken out", async () => {
    const at = await openStory();
    await add(at, { token: TOKEN, photo: [["a.jpg", jpeg()]] });
    const [id] = (await idsOf(at)) as [string];
    await tick(at, [id]);
    const out = await at.desk.press(await at.desk.get(`${at.job}/photos`), "Remove this photo");
    expect(words(out.html)).toContain("Taken out.");
    expect((await estimates.find(at.opened.db, at.estimateId))?.input.paperwork?.photos).toBeUndefined();
    expect(await photos.isRemoved(at.opened.db, id)).toBe(true);
    expect((await at.desk.get(`/photos/${id}`)).status).toBe(404);
    expect((await verifyShop(at.opened.db)).mismatch).toBeUndefined();
  });

  it("are at most twelve in one PDF, and nothing is kept of more", async () => {
    const at = await openStory();
    const files = Array.from({ length: 13 }, (_, index) => [`${index}.png`, png(6, 6 + index)] as const);
    await add(at, { token: TOKEN, photo: files });
    const ids = await idsOf(at);
    const refused = await tick(at, ids);
    expect(refused.status).toBe(422);
    expect(words(refused.html)).toContain("Photos in the PDF: 12 is the most; take some out first.");
    expect((await estimates.find(at.opened.db, at.estimateId))?.input.paperwork?.photos).toBeUndefined();
    await tick(at, ids.slice(0, 12));
    expect((await estimates.find(at.opened.db, at.estimateId))?.input.paperwork?.photos).toHaveLength(12);
  });

  it("are at most 6 MB together in one PDF, each a little below what one may have", async () => {
    const at = await openStory();
    const TOKENS = ["1", "2", "3"].map((last) => `${TOKEN.slice(0, -1)}${last}`);
    for (const [index, token] of TOKENS.entries())
      await add(at, { token, photo: [["large.jpg", padded(jpeg(), 2_200_000 + index)]] });
    const ids = await idsOf(at);
    const refused = await tick(at, ids);
    expect(refused.status).toBe(422);
    expect(words(refused.html)).toContain(
      "Photos in the PDF: together they have 6.3 MB, and 6 MB is the most in a PDF; choose fewer.",
    );
    expect((await estimates.find(at.opened.db, at.estimateId))?.input.paperwork?.photos).toBeUndefined();
    await tick(at, ids.slice(1));
    expect((await estimates.find(at.opened.db, at.estimateId))?.input.paperwork?.photos).toHaveLength(2);
  });
});
