import { describe, expect, it } from "vitest";
import { missingSpokenFields, SPOKEN_FIELDS, type SpokenAgreement } from "../../../src/estimating/agreement/spoken.js";

/** Invented. */
const SPOKEN: SpokenAgreement = {
  date: "2026-11-26",
  time: "16:05",
  authoriser: "Orla Thistlewick",
  numberCalled: "01632 960784",
  receiver: "Bench two",
  conditions: "none",
  extraPartsAndLabour: "Two reservoir capacitors on the filter pan, 40 minutes",
  additionalCost: 4250,
};

describe("a spoken agreement", () => {
  it("has the eight particulars of 16 CCR 2722(a), read for the list of published checks", () => {
    expect(SPOKEN_FIELDS).toEqual([
      "date",
      "time",
      "authoriser",
      "numberCalled",
      "receiver",
      "conditions",
      "extraPartsAndLabour",
      "additionalCost",
    ]);
  });

  it("is complete with all of them", () => expect(missingSpokenFields(SPOKEN)).toEqual([]));

  it.each(SPOKEN_FIELDS)("is not complete without %s", (field) => {
    const { [field]: _, ...rest } = SPOKEN;
    expect(missingSpokenFields(rest)).toEqual([field]);
  });

  it("is not complete with blanks, a day or time that is none, or a cost that is none", () => {
    expect(
      missingSpokenFields({
        ...SPOKEN,
        date: "2026-02-30",
        time: "24:00",
        authoriser: " ",
        conditions: "",
        additionalCost: 12.5,
      }),
    ).toEqual(["date", "time", "authoriser", "conditions", "additionalCost"]);
    expect(missingSpokenFields({ ...SPOKEN, additionalCost: -1 })).toEqual(["additionalCost"]);
    expect(missingSpokenFields({ ...SPOKEN, additionalCost: 0 })).toEqual([]);
    expect(missingSpokenFields({})).toEqual(SPOKEN_FIELDS);
  });
});
