import { describe, expect, it } from "vitest";
import { GUIDES } from "../../../src/pages/help/guides.js";
import { browser, person } from "../support/people.js";
import { shop } from "../support/shop.js";

const textOf = async (answer: Response | Promise<Response>) => (await answer).text();

describe("the help", () => {
  it("has an index that leads to every subject, each with its headings as anchors", async () => {
    const { app } = await shop();
    const index = await textOf(app.request("/help"));
    for (const { slug, text } of GUIDES) {
      expect(index).toContain(`href="/help/${slug}"`);
      const page = await textOf(app.request(`/help/${slug}`));
      expect([...page.matchAll(/<h2 id="([\w-]+)"/g)].map(([, id]) => id)).toEqual(
        [...text.matchAll(/\{#([\w-]+)\}/g)].map(([, id]) => id),
      );
      // Every mark of the Markdown became a tag.
      const main = page.slice(page.indexOf("<main"), page.indexOf("</main>"));
      expect(main, slug).not.toMatch(/\*|`|\{#|\]\(|\| |<p>(?:- |\d+\. |#)/);
    }
    expect((await app.request("/help/nothing")).status).toBe(404);
  });

  it("is read by whoever is not signed in, without a word of the shop", async () => {
    const made = await shop();
    expect(await textOf(made.app.request("/help/bench"))).toContain('href="/looking-back"');
    await person(made, "Mattie", "manager");
    const stranger = browser(made);
    const page = await textOf(stranger.get("/help/bench"));
    expect(page).toContain("At the bench, also offline");
    expect(page).not.toContain('href="/looking-back"');
    expect((await stranger.get("/find")).status).toBe(303);
  });

  it("is one link away from every page: that page's own subject", async () => {
    const { app } = await shop();
    const head = async (path: string) => {
      const page = await textOf(app.request(path, { headers: { accept: "text/html" } }));
      return /<a href="(\/help[^"]*)">Help<\/a>/.exec(page)?.[1];
    };
    expect(await head("/parts/donors/new")).toBe("/help/parts");
    expect(await head("/estimates/new")).toBe("/help/counting");
    expect(await head("/settings")).toBe("/help/papers");
    expect(await head("/help")).toBe("/help");
  });

  it("is one link away from a field, on a page of its own, so that nothing typed is lost", async () => {
    const made = await shop();
    const { app } = made;
    const link = (help: string, label: string) =>
      `<a class="help" href="/help/${help}" target="_blank" rel="noopener" aria-label="Help: ${label} (opens a new tab)">?</a>`;
    expect(await textOf(app.request("/parts/kinds/el-1u-100/offers"))).toContain(
      link("scarce-parts#share-good", "Share good (%)"),
    );
    const form = await textOf(browser(made).send("/estimates/new", { intent: "open:terms" }));
    expect(form).toContain(link("pricing#pricing", "Pricing"));
    expect(form).toContain(link("taxes#law-profile", "Agreement profile"));
    expect(await textOf(app.request("/rate-book"))).toContain(link("pricing#deposit", "Deposit on labour (%)"));
  });

  it("is found beside the jobs", async () => {
    const { app } = await shop();
    const page = await textOf(app.request("/find?q=deposit"));
    expect(page).toContain('<a href="/help/pricing#deposit"><mark>Deposit</mark></a>');
    expect(page).toMatch(/of the help have it\./);
    expect(await textOf(app.request("/find?q=nowhereatall"))).not.toContain("In the help");
  });
});
