import { describe, expect, it } from "vitest";
import { profileOf } from "../../../src/estimating/law/profiles.js";
import { missingSpokenFields, SPOKEN_FIELDS, type SpokenAgreement } from "../../../src/estimating/law/spoken.js";

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

const BESIDE = profileOf("us-ca").spokenFields;

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

  it("of any other shop says when, by whom and to whom", () =>
    expect(missingSpokenFields({}, profileOf("plain").spokenFields)).toEqual(["date", "time", "authoriser", "receiver"]));

  it("is complete with all of them", () => expect(missingSpokenFields(SPOKEN, BESIDE)).toEqual([]));

  it.each(SPOKEN_FIELDS)("is not complete without %s", (field) => {
    const { [field]: _, ...rest } = SPOKEN;
    expect(missingSpokenFields(rest, BESIDE)).toEqual([field]);
  });

  it("is not complete with blanks, a day or time that is none, or a cost that is none", () => {
    expect(
      missingSpokenFields(
        {
          ...SPOKEN,
          date: "2026-02-30",
          time: "24:00",
          authoriser: " ",
          conditions: "",
          additionalCost: 12.5,
        },
        BESIDE,
      ),
    ).toEqual(["date", "time", "authoriser", "conditions", "additionalCost"]);
    expect(missingSpokenFields({ ...SPOKEN, additionalCost: -1 }, BESIDE)).toEqual(["additionalCost"]);
    expect(missingSpokenFields({ ...SPOKEN, additionalCost: 0 }, BESIDE)).toEqual([]);
    expect(missingSpokenFields({}, BESIDE)).toEqual(SPOKEN_FIELDS);
  });
});
