/** The guides say what is there, in the words of the pages, and no figure that is not held to what the program does. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, test } from "vitest";
import { saysOf } from "../../src/acts/field.js";
import { offer } from "../../src/acts/offer.js";
import { createApp } from "../../src/http/app/app.js";
import { BODY_LIMIT, IMPORT_LIMIT } from "../../src/http/guard/bodyLimits.js";
import { helpOfField } from "../../src/pages/form/label.js";
import { sectionsOf } from "../../src/pages/help/guide.js";
import { GUIDES, helpOf, plainRoute, sectionsWith } from "../../src/pages/help/guides.js";
import { MOST_EARLIER_JOBS } from "../../src/records/earlierJobs.js";
import * as terms from "../../src/records/entryTerms.js";
import { SHORTEST } from "../../src/records/search.js";

const { scarcity } = JSON.parse(readFileSync("fixtures/demo/rate-book.json", "utf8")) as {
  scarcity: { serviceLevel: number; shareGood: Record<string, number>; marginPercent: Record<string, number> };
};
/** A figure of a file of src that nothing but that file uses. */
const figureIn = (file: string, name: string): number => {
  const found = new RegExp(`(?:const |^ *)${name}(?: =|:) ([\\d_]+)`, "m").exec(readFileSync(join("src", file), "utf8"));
  if (!found) throw new Error(`${file} has no figure ${name}.`);
  return Number(found[1]!.replaceAll("_", ""));
};

const found = (text: string, pattern: RegExp) => [...new Set([...text.matchAll(pattern)].map((match) => match[1]!))];
const all = GUIDES.map(({ text }) => text).join("\n");

const app = createApp({
  openDatabase: () => undefined,
  assets: {},
  guard: "loopback",
  secretOf: () => undefined,
  addressOf: () => "",
});
const routes = new Set(app.routes.map(({ path }) => plainRoute(path)));
/** What stands in the shop's frame, with a link to the help in its head; what the help itself is apart. */
const pages = new Set(
  app.routes
    .filter(({ method, path }) => method === "GET" && !/^\/(api\/|o(\/|$)|help|health|openapi|photos)/.test(path))
    .map(({ path }) => plainRoute(path))
    .filter((path) => !/\.\w+$/.test(path)),
);

describe("the help", () => {
  it("has a guide for every page, and names no page that is not there", () => {
    expect(pages.size).toBeGreaterThan(50);
    expect([...pages].filter((path) => helpOf(path) === "/help")).toEqual([]);
    expect(GUIDES.flatMap((guide) => guide.pages).filter((path) => !routes.has(path))).toEqual([]);
  });

  it("calls each subject and each heading by a name of its own, and gives no page two guides", () => {
    const hrefs = GUIDES.flatMap(sectionsOf).map(({ href }) => href);
    const named = GUIDES.flatMap((guide) => guide.pages);
    expect(new Set(hrefs).size).toBe(hrefs.length);
    expect(new Set(named).size).toBe(named.length);
    // A heading without an anchor would be no section of its own.
    expect(all.match(/^## /gm)).toHaveLength(hrefs.length - GUIDES.length);
  });

  const anchors = new Set(["/help", ...GUIDES.flatMap(sectionsOf).map(({ href }) => href)]);
  test.each(found(all, /\]\(([^)]+)\)/g))("its link %s leads somewhere", (href) => {
    expect(anchors.has(href) || pages.has(href)).toBe(true);
  });

  const said = ["pages", "acts", "wording"]
    .flatMap((room) =>
      readdirSync(join("src", room), { recursive: true, encoding: "utf8" }).map((file) => join("src", room, file)),
    )
    .filter((file) => /\.tsx?$/.test(file) && !file.includes("pages/help"))
    .map((file) => readFileSync(file, "utf8").replaceAll(/\s+/g, " "))
    .join("\n");

  test.each(found(all, /(?<!\*)\*([^*\n]+)\*(?!\*)/g))("the words *%s* stand on a button, a field or a heading", (words) => {
    const plain = words.replaceAll(/[^\w\s]/g, "\\$&");
    // Whole: between quotes or tags, before a unit in brackets or after an expression.
    expect(new RegExp(`["'\`>}] ?${plain}(?: ?["'\`<{,:.(]|$)`, "m").test(said)).toBe(true);
  });
});

describe("the help of a field", () => {
  const anchors = new Set(GUIDES.flatMap(sectionsOf).map(({ href }) => href));
  const sources = ["acts", "pages"]
    .flatMap((room) =>
      readdirSync(join("src", room), { recursive: true, encoding: "utf8" }).map((file) => join("src", room, file)),
    )
    .filter((file) => /\.tsx?$/.test(file));
  const named = found(sources.map((file) => readFileSync(file, "utf8")).join("\n"), /help[:=] ?"([\w-]+(?:#[\w-]+)?)"/g);
  const ofTheForm = found(readFileSync("src/pages/form/label.ts", "utf8"), /^ {2}"[\w.*]+": "([\w-]+#[\w-]+)",$/gm);

  test.each([...new Set([...named, ...ofTheForm])])("%s is there", (help) => {
    expect(anchors).toContain(`/help/${help}`);
  });

  it("is told of every hard concept", () => {
    expect([...named, ...ofTheForm]).toEqual(
      expect.arrayContaining([
        ...["scarce-parts#share-good", "scarce-parts#margin", "possible-work#certainty", "pricing#ceiling", "counting#access"],
        ...["counting#set-ups", "pricing#deposit", "taxes#law-profile", "pricing#pricing"],
      ]),
    );
  });

  it("stands with the act's own field, and with the form's by whichever row", () => {
    expect(saysOf(offer.fields).get("shareGood")?.help).toBe("scarce-parts#share-good");
    expect([
      helpOfField("line.r12.good"),
      helpOfField("assembly.a3.by"),
      helpOfField("terms.ceiling"),
      helpOfField("owner.name"),
    ]).toEqual(["scarce-parts#share-good", "counting#access", "pricing#ceiling", undefined]);
  });
});

describe("figures in the help", () => {
  const { used } = scarcity.shareGood;
  const pieces = (share: number) => Math.ceil(Math.log(1 - scarcity.serviceLevel) / Math.log(1 - share));
  const NUMBERS = ["none", "one", "two", "three", "four"];
  const donor = scarcity.shareGood["donor pull"]!;
  /** As they must be read, by subject. */
  const held: Readonly<Record<string, readonly string[]>> = {
    // tests/fixtures/countsAgreeWithMaps.test.ts holds these.
    counting: [
      "within 3 % of what the maps say, its cost within 6 %, and the totals within 7 %",
      // Malcolm et al. 1959; tests/estimating/labour holds the mean.
      "(shortest + 4 × likely + longest) / 6",
      "`12 film capacitor`",
    ],
    map: [`the latest ${MOST_EARLIER_JOBS} jobs`],
    "scarce-parts": [
      `the service level is ${scarcity.serviceLevel}: used parts of which ${used! * 100} in 100 prove good want ${NUMBERS[pieces(used!)]} bought for each one needed, so the margin is ${(pieces(used!) - 1) * 100} %`,
      `${donor * 100} in 100 good, want ${NUMBERS[pieces(donor)]}: ${scarcity.marginPercent["donor only"]} %`,
      `${donor * 100} means seven in ten. New parts have ${scarcity.shareGood.new! * 100}.`,
    ],
    "possible-work": ["30 means three such units in ten"],
    // The field's own hint says it too.
    pricing: ["80 under *Jobs in 100 to cover* means a price that covers 8 jobs in 10", "what 4 jobs in 5 like this cost you"],
    papers: ["a footer of up to 4 lines", `at most ${figureIn("http/doors/logo.ts", "LARGEST") / 1000} kB`],
    offers: [`older than ${figureIn("estimating/sheet/warnings.ts", "EXCHANGE_GOOD_FOR_DAYS")} days`],
    learning: [`once ${figureIn("estimating/closeout/learning/propose.ts", "FEWEST_JOBS")} closed jobs timed it`],
    "rate-book": [`the last ${figureIn("acts/effect.ts", "LAST_JOBS")} jobs`],
    staff: [
      `a link that works once within ${terms.INVITATION_DAYS} days`,
      `${terms.PASSPHRASE_LENGTH} characters or more`,
      `one of ${terms.RECOVERY_CODES}, shown once`,
      `A sign-in ends ${terms.SESSION_DAYS} days after its last use, and after ${terms.SESSION_LONGEST_DAYS} days in any case. ${terms.FAILURES_ALLOWED} wrong attempts close that door for ${terms.FAILURES_MINUTES} minutes`,
    ],
    backup: [`Files up to ${IMPORT_LIMIT / BODY_LIMIT} MiB`],
    find: [`${SHORTEST} letters are enough`],
    programs: ["kept for 24 hours"],
  };
  const STANDARDS = /EN 16931|RFC 9457|127\.0\.0\.1|^\d+\. |\{#[\w-]+\}/gm;

  test.each(GUIDES.map(({ slug }) => [slug] as const))("of '%s' are what the program does", (slug) => {
    let { text } = GUIDES.find((guide) => guide.slug === slug)!;
    for (const phrase of held[slug] ?? []) {
      expect(text).toContain(phrase);
      text = text.replace(phrase, "");
    }
    expect(text.replaceAll(STANDARDS, "")).not.toMatch(/\d/);
  });

  it("are told of no subject that is not there", () => {
    expect(Object.keys(held).filter((slug) => !GUIDES.some((guide) => guide.slug === slug))).toEqual([]);
  });
});

describe("looking through the help", () => {
  it("finds each subject once, where its heading has the word before others", () => {
    const [first, ...rest] = sectionsWith(["deposit"], 10);
    expect(first!.href).toBe("/help/pricing#deposit");
    expect(rest.map(({ guide }) => guide.slug)).toContain("payments");
    expect(new Set(rest.map(({ guide }) => guide)).size).toBe(rest.length);
  });

  it("wants every word, each as the beginning of one, whatever the case; marks are no words", () => {
    expect(sectionsWith(["OFFER", "curren"], 10).map(({ guide }) => guide.slug)).toContain("offers");
    expect(sectionsWith(["eposit"], 10)).toEqual([]);
    expect(sectionsWith(["(["], 10)).toEqual([]);
    expect(sectionsWith([], 10)).toEqual([]);
    expect(sectionsWith(["owner"], 3)).toHaveLength(3);
  });
});
