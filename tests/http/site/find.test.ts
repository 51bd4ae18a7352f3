import { describe, expect, it } from "vitest";
import { shop } from "../support/shop.js";

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
});
