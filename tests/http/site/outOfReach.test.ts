/** A shop that only this machine opens gives its estimates on paper: no link is made, shown or printed, by page or program. */
import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { opensElsewhere } from "../../../src/http/guard/host.js";
import { issues } from "../../../src/records/issues.js";
import { ownerLinks } from "../../../src/records/ownerLinks.js";
import { eventsOf } from "../../../src/records/trail.js";
import { words } from "../support/noScript.js";
import { HAND, type Story, story } from "../support/story.js";

const SAID = "Customers cannot reach this computer: give them the PDF and record the answer.";
const alone = () => story(0, { originOf: () => undefined });

/** Every address that the PDF leads to. */
async function addressesIn({ opened, estimateId }: Story): Promise<readonly string[]> {
  const bytes = Buffer.from((await issues.pdf(opened.db, estimateId))!);
  const streams = [...bytes.toString("latin1").matchAll(/stream\r?\n([\s\S]*?)endstream/g)].map(([, data]) => {
    try {
      return inflateSync(Buffer.from(data!, "latin1")).toString("latin1");
    } catch {
      return "";
    }
  });
  return [bytes.toString("latin1"), ...streams].flatMap((text) => text.match(/\/URI ?\((https?:[^)]*)\)/g) ?? []);
}

describe("on loopback without a public address", () => {
  it("issuing says so and how to change it, makes no link, and goes on to the PDF and the answer", async () => {
    const told = await alone();
    const page = await told.desk.get(`${told.job}/issue`);
    expect(words(page.html)).toContain(SAID);
    expect(page.html).toContain("OHMWRIGHT_ORIGIN");
    expect(page.html).not.toMatch(/name="(deliveredTo|linkDays|send)"/);
    const issued = await told.desk.press(page, "Issue revision 1", { by: HAND });
    expect([issued.status, words(issued.html)]).toEqual([200, expect.stringContaining("Revision 1 is issued")]);
    expect(issued.html).toContain(`href="/estimates/${told.estimateId}.pdf"`);
    expect(issued.html).toContain(`href="${told.job}/answers"`);
    expect(issued.html).not.toMatch(/\/o#|id="code"|mailto:/);
    const answers = words((await told.desk.get(`${told.job}/answers`)).html);
    expect(answers).toContain("Where a link was made, the owner answers on its page");
    expect(answers).toContain("With a link, the owner can ask on the estimate's page");
    expect(await ownerLinks.ofJob(told.opened.db, told.jobId)).toEqual([]);
    expect((await eventsOf(told.opened.db, told.jobId)).map(({ is }) => is)).not.toContain("link made");
    expect(await addressesIn(told)).toEqual([]);
    const links = await told.desk.get(`${told.job}/links`);
    expect(words(links.html)).toContain(SAID);
    expect(links.html).not.toContain("Make a link");
    const refused = await told.desk.send(`${told.job}/links`, [
      ["by", HAND],
      ["deliveredTo", "owner@example.org"],
    ]);
    expect([refused.status, words(refused.html)]).toEqual([409, expect.stringContaining(SAID)]);
  });

  it("a program issues on paper too, and is refused by name where it asks for a link", async () => {
    const { opened, estimateId } = await alone();
    const issue = (body: object) => opened.send("POST", `/api/estimates/${estimateId}/issue`, body, { "if-match": '"1"' });
    const typeOf = async (answer: Response) => [answer.status, ((await answer.json()) as { type: string }).type];
    for (const asked of [{ deliveredTo: "owner@example.org" }, { linkDays: 30 }])
      expect(await typeOf(await issue({ by: HAND, ...asked }))).toEqual([409, "/problems/no-public-address"]);
    expect((await issue({ by: HAND, deliveredTo: "on paper" })).status).toBe(200);
    const link = await opened.send("POST", `/api/estimates/${estimateId}/owner-links`, { by: HAND, deliveredTo: "x" });
    expect(await typeOf(link)).toEqual([409, "/problems/no-public-address"]);
  });
});

it("prints the address where owners reach the shop, which the reading of PDFs here would find", async () => {
  const told = await story(0, { originOf: () => "https://estimates.example" });
  await told.desk.press(await told.desk.get(`${told.job}/issue`), "Issue revision 1", { by: HAND });
  expect((await addressesIn(told)).join()).toContain("https://estimates.example/o#");
});

it.each([
  ["https://estimates.example", true],
  ["http://192.168.1.20:4700", true],
  ["http://localhost.example", true],
  ["http://localhost:4700", false],
  ["http://127.9.0.1", false],
  ["http://[::1]:4700", false],
  ["http://0.0.0.0:4700", false],
  ["http://bench.localhost", false],
])("%s is opened by other machines: %s", (origin, elsewhere) => {
  expect(opensElsewhere(origin)).toBe(elsewhere);
});
