import { describe, expect, it } from "vitest";
import { BARE_JOB, shop } from "../support/shop.js";

describe("the page that finds a job", () => {
  it("shows what was found, with the words marked, and says how many", async () => {
    const { app } = await shop();
    const page = await (await app.request("/find?q=tape+echo")).text();
    expect(page).toMatch(/One job found\.|\d+ jobs found\./);
    expect(page).toMatch(/<mark>Tape<\/mark>/i);
    expect(page).toMatch(/<a href="\/jobs\/[^"]+">/);
  });

  it("keeps what was typed, and says what to do when it is too short or nothing has it", async () => {
    const { app } = await shop();
    const short = await (await app.request("/find?q=x")).text();
    expect(short).toContain('value="x"');
    expect(short).toContain("Type two letters or figures of a word, or more.");
    expect(await (await app.request("/find?q=%3Cb%3Enowhere")).text()).toContain('value="&lt;b&gt;nowhere"');
    expect(await (await app.request("/find?q=nowhere")).text()).toContain("Nothing on record has all of these words");
    expect((await app.request("/find")).status).toBe(200);
  });

  it("answers programs the same", async () => {
    const { app } = await shop();
    const answer = await app.request("/api/search?q=tape&limit=1");
    expect(answer.status).toBe(200);
    const { items } = (await answer.json()) as { items: { number: string; unit: string }[] };
    expect(items).toHaveLength(1);
    expect(items[0]!.number).toMatch(/^J-\d{4}-\d{4}$/);
    expect((await app.request("/api/search?q=")).status).toBe(400);
  });

  // FTS5 query syntax: sqlite.org/fts5.html#full_text_query_syntax (a quote ends a string unless doubled; bare words such as OR, and * ^ : ( ) -, mean something).
  it.each([
    ['12"', 1],
    ['12" reel', 1],
    ['12"reel', 1],
    ['"thumps"', 1],
    ['"thumps" "twice"', 1],
    ['12" "thumps"', 1],
    ['thum"ps', 0],
    ['reel"" OR nowhere', 0],
    ["NEAR(reel", 0],
    ["thum*", 1],
    ["^thumps", 1],
    ["-thumps", 1],
    ["told:thumps", 0],
    ["(thumps)", 1],
    ["thumps'; DROP TABLE jobs; --", 0],
  ])("looks for what the index would take as its own sign as it was typed: %s", async (typed, found) => {
    const { call, send } = await shop();
    await send(
      "PUT",
      `/api/jobs/${BARE_JOB}`,
      { ...(await bare(call)), reported: 'its 12" reel "thumps" twice' },
      { "if-match": '"1"' },
    );
    const query = new URLSearchParams({ q: typed });
    const page = await call(`/find?${query}`);
    expect(page.status).toBe(200);
    const { items } = (await (await call(`/api/search?${query}`)).json()) as { readonly items: readonly { jobId: string }[] };
    expect(items.map(({ jobId }) => jobId)).toEqual(found ? [BARE_JOB] : []);
    expect((await page.text()).includes(`href="/jobs/${BARE_JOB}"`)).toBe(found > 0);
  });
});

async function bare(call: (path: string) => Promise<Response>) {
  const { ownerId, unitId, arrivedOn } = await (await call(`/api/jobs/${BARE_JOB}`)).json();
  return { ownerId, unitId, arrivedOn };
}
