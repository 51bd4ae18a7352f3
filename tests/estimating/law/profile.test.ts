/** Each figure of a profile against the clause it is taken from (fixtures/published/agreement-profiles.json). Not legal advice. */
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/agreement-profiles.json";
import { isDay } from "../../../src/estimating/day.js";
import { DOCUMENT_FIELDS } from "../../../src/estimating/law/profile.js";
import { PROFILE_IDS, PROFILES, profileOf } from "../../../src/estimating/law/profiles.js";

describe.each(PROFILES)("$id: $name", (profile) => {
  const figures = published.figures.filter((each) => each.profile === profile.id);
  const fields = published.fields.filter((each) => each.profile === profile.id);

  for (const { figure, is, clause, status } of figures)
    it(`${figure} is ${JSON.stringify(is)} by ${clause} (${status})`, () => {
      expect(profile[figure as keyof typeof profile]).toEqual(is);
    });

  for (const { field, clause, status } of fields)
    it(`asks for ${field} by ${clause} (${status})`, () => expect(profile.requires).toContain(field));

  it("has no figure that no clause stands behind", () => {
    const own = {
      tolerancePercent: profile.tolerancePercent,
      validityDays: profile.validityDays,
      warrantyMonths: profile.warrantyMonths,
      itemisedBill: profile.itemisedBill,
    };
    const stated = Object.entries(own)
      .filter(([, value]) => value !== undefined)
      .map(([key]) => key);
    if (profile.basis === "shop's own") return;
    expect(figures.map(({ figure }) => figure)).toEqual(expect.arrayContaining(stated));
  });

  it("asks for nothing beyond its clauses and what any written estimate says", () => {
    const usual = profileOf("plain").requires;
    const known = new Set<string>([...usual, ...fields.map(({ field }) => field)]);
    expect(profile.requires.filter((field) => !known.has(field))).toEqual([]);
    expect(usual.filter((field) => !profile.requires.includes(field))).toEqual([]);
  });

  it("says where it comes from, when it was read, and what in it was not read", () => {
    expect(profile.source.length).toBeGreaterThan(10);
    expect(isDay(profile.readOn)).toBe(true);
    if (profile.inForceFrom !== undefined) expect(isDay(profile.inForceFrom)).toBe(true);
    const remembered = [...figures, ...fields].filter(({ status }) => status === "memory");
    if (remembered.length > 0) expect(profile.notFromSource.join(" ")).toMatch(/from memory/);
    if (
      [...figures, ...fields].some(
        ({ figure, status }: { figure?: string; status: string }) => figure === "tolerancePercent" && status === "secondary",
      )
    )
      expect(profile.basis).toBe("secondary source");
  });

  it("measures with tax unless its source says otherwise, and says so where the source does not say", () => {
    if (profile.basis === "shop's own") return;
    const said = figures.some(({ figure }) => figure === "taxCounts");
    expect(said || profile.notFromSource.some((text) => text.includes("whether tax counts"))).toBe(true);
    if (!said) expect(profile.taxCounts).toBe(true);
  });
});

describe("the list of profiles", () => {
  it("has one entry for every place that figures were published for, and the shop's own terms first", () => {
    expect(PROFILES[0]!.id).toBe("plain");
    const places = new Set(published.figures.map(({ profile }) => profile));
    expect([...PROFILE_IDS].filter((id) => id !== "plain").sort()).toEqual([...places].sort());
    expect(PROFILE_IDS.size).toBe(PROFILES.length);
  });

  it("asks only for fields that are looked up", () => {
    for (const { requires } of PROFILES) for (const field of requires) expect(DOCUMENT_FIELDS).toContain(field);
    const asked = new Set(PROFILES.flatMap(({ requires }) => requires));
    expect([...asked].sort()).toEqual([...DOCUMENT_FIELDS].sort());
  });

  it("is the shop's own terms where a policy names none, and a fault of ours where it names one that was not checked", () => {
    expect(profileOf(undefined).id).toBe("plain");
    expect(profileOf("au").id).toBe("au");
    expect(() => profileOf("atlantis")).toThrow("not checked");
  });
});
