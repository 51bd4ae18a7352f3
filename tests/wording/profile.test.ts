import { describe, expect, it } from "vitest";
import type { EstimateInput } from "../../src/estimating/input.js";
import { PROFILES, profileOf } from "../../src/estimating/law/profiles.js";
import { SPOKEN_FIELDS } from "../../src/estimating/law/spoken.js";
import { unready } from "../../src/estimating/law/unready.js";
import { chainFaultText, logRefusalText, spokenFieldText, unagreedText } from "../../src/wording/agreement.js";
import { LOCAL_LAW, profileNotices, profileSourceText, unreadyText } from "../../src/wording/profile.js";
import { AMPLIFIER, ORGAN, sheetOf } from "../estimating/agreement/demo.js";

const under = (profile: string, change: Partial<EstimateInput> = {}): EstimateInput => ({
  ...ORGAN,
  ...change,
  policy: { ...ORGAN.policy, ...change.policy, profile },
});
const notices = (input: EstimateInput) =>
  profileNotices(profileOf(input.policy?.profile), input, sheetOf(input), { locale: "en-GB" });

describe("what a document tells the owner under its profile", () => {
  it("is nothing under the shop's own terms", () => expect(notices(under("plain"))).toEqual([]));

  it("ends with whom it is written for, and that this is no legal advice, under any other", () => {
    for (const { id, name } of PROFILES.filter((profile) => profile.id !== "plain"))
      expect(notices(under(id)).at(-1)).toBe(`Written for ${name}. Not legal advice; check your local law.`);
  });

  it("says in California that nothing goes above the estimate, that tax is not part of it, and what becomes of parts", () => {
    expect(notices(under("us-ca")).slice(0, 3)).toEqual([
      "We do not go above this estimate, and the possible work listed with it, without your agreement beforehand.",
      "Sales tax is added to the estimate and is not part of it.",
      "Replaced parts are returned to you in most cases; tell us if you want them.",
    ]);
  });

  it("says the percentage where there is one, and the owner's own ceiling where that was set", () => {
    expect(notices(under("ca-on"))[0]).toBe(
      "We do not go more than 10% above this estimate, and the possible work listed with it, without your agreement beforehand.",
    );
    expect(notices(under("ca-on", { policy: { ceiling: 90_000 } }))[0]).toBe(
      "We do not charge more than the most you allowed without your agreement beforehand.",
    );
    expect(notices(under("de"))[0]).toBe(
      "We do not charge more than the amount under 'Never more than' without your agreement beforehand.",
    );
  });

  it("says in Australia what the unit holds of the owner's data, which parts are used, and how to get an itemised bill", () => {
    const held = under("au", { unit: { ...ORGAN.unit, storedData: "64 patches." } });
    expect(notices(held)).toEqual(
      expect.arrayContaining([
        "This unit holds data of yours: 64 patches. Repair may erase it; keep a copy.",
        "You may ask for an itemised bill within 30 days; you get it free of charge within 7 days.",
      ]),
    );
    expect(notices(under("au", { unit: { ...ORGAN.unit, storedData: "" } }))).toContain(
      "You told us that this unit holds no data of yours. Repair may erase what it holds.",
    );
    const offers = AMPLIFIER.offers!.map((offer) =>
      offer.kind === "double-triode" ? { ...offer, state: "used" as const } : offer,
    );
    const used = notices({ ...AMPLIFIER, offers, policy: { ...AMPLIFIER.policy, profile: "au" } });
    const kind = AMPLIFIER.kinds!.find(({ id }) => id === "double-triode")!;
    expect(used.find((text) => text.startsWith("Used or reconditioned parts are planned for"))).toContain(kind.name);
  });

  it("says in Quebec how long the warranty is", () => {
    expect(notices(under("ca-qc"))).toContain("Parts and labour carry a warranty of 3 months from return of the unit.");
  });

  it("never calls the estimate by the word its own profile forbids", () => {
    for (const { id, neverCalled } of PROFILES)
      for (const word of neverCalled) expect(notices(under(id)).join(" ").toLowerCase()).not.toContain(word);
  });
});

describe("where a profile comes from", () => {
  it("is said with how far it was read, and always that it is no legal advice", () => {
    for (const profile of PROFILES)
      expect(profileSourceText(profile)).toMatch(new RegExp(`${LOCAL_LAW.replaceAll(".", "\\.")}$`));
    expect(profileSourceText(profileOf("ca-on"))).toBe(
      "Source: Consumer Protection Act 2002, section 10, as explained by the province and in a case note; secondary source, 2026-11-25. " +
        "The wording of the section and the day it took effect are from memory. " +
        "The source does not say whether tax counts; the tool measures with tax. Not legal advice; check your local law.",
    );
  });
});

describe("why an estimate cannot be issued", () => {
  const say = (input: EstimateInput) => {
    const { name } = profileOf(input.policy?.profile);
    return unready(input, sheetOf(input)).map((each) => unreadyText(each, name, "en-GB"));
  };

  it("names the field and where to fill it in", () => {
    const { serial: _, ...unit } = ORGAN.unit;
    expect(say(under("us-md-pg", { unit }))).toEqual([
      "Prince George's County, Maryland: television and radio repair asks for the unit's serial number: fill it in with the unit, or write that it has none.",
    ]);
  });

  it("names the word and the sentence, with one full stop", () => {
    const paperwork = { ...ORGAN.paperwork, shop: { ...ORGAN.paperwork!.shop!, registration: "DEMO-1" } };
    const called = (term: string) => say(under("us-ca", { paperwork: { ...paperwork, terms: [term] } }));
    expect(called("This price is a minimum.")).toEqual(called("This price is a minimum"));
    expect(called("This price is a minimum")).toEqual([
      "California: electronic set repair does not let an estimate be called a 'minimum'; reword 'This price is a minimum'.",
    ]);
  });

  it("says how long it must hold and what to do", () => {
    const early = under("eu-form", { paperwork: { ...ORGAN.paperwork, date: "2026-11-30" } });
    expect(say(early)).toEqual([
      "European repair information form, Directive (EU) 2024/1799 wants it to hold for 30 days, until 30 December 2026, but it ends on 25 December 2026; read the prices as of 30 November 2026 or later.",
    ]);
  });
});

describe("agreements and their trail", () => {
  it("label the eight fields of a spoken agreement, each its own", () => {
    expect(new Set(SPOKEN_FIELDS.map(spokenFieldText)).size).toBe(8);
  });

  it("say why work may not be logged and what to do, and nothing when it may", () => {
    const tongue = { locale: "en-GB", currency: "GBP" };
    const amount = { total: 6480, withoutTax: 5400 };
    expect(logRefusalText({ is: "within", amount }, true, tongue)).toBeUndefined();
    expect(logRefusalText({ is: "above limit", amount, by: 12 }, true, tongue)).toBe(
      "This would pass what the owner agreed to by £0.12, tax included. Ask the owner first, or record an override with your name and the reason.",
    );
    expect(logRefusalText({ is: "above limit", amount, by: 12 }, false, tongue)).toContain("£0.12, before tax");
    expect(logRefusalText({ is: "not agreed", item: "x1", why: "option not chosen" }, true, tongue)).toBe(
      `${unagreedText("option not chosen")} Ask the owner first, or record an override with your name and the reason.`,
    );
  });

  it("say what in the chain does not match", () => {
    expect(chainFaultText({ is: "hash", number: 3, hash: "a", expected: "b" })).toBe(
      "Event 3 does not match its hash; it or what came before was changed.",
    );
    expect(chainFaultText({ is: "number", number: 4, expected: 3 })).toBe(
      "Event 4 stands where event 3 should; one was removed, put in or moved.",
    );
    expect(chainFaultText({ is: "job", number: 2, job: "J-2", expected: "J-1" })).toBe("Event 2 belongs to job J-2, not to J-1.");
    expect(chainFaultText({ is: "head", number: 4, hash: "a" })).toBe(
      "Event 4 is gone, though a document with its hash left the shop.",
    );
    expect(chainFaultText({ is: "head", number: 4, hash: "a", found: "b" })).toContain("was rewritten");
  });
});
