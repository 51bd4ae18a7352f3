import { expect, it } from "vitest";
import { z } from "zod";
import { maybe, share } from "../../../src/acts/field.js";
import { readForm, typedFrom } from "../../../src/acts/readForm.js";
import { writeForm } from "../../../src/acts/writeForm.js";

const fields = z.strictObject({ shareGood: maybe(share("Share good")) });
const tongue = { locale: "de-DE", currency: "EUR" };
const read = (text: string, mark?: ".") =>
  readForm(fields, typedFrom(new URLSearchParams({ shareGood: text })), { ...tongue, ...(mark && { mark }) });

it("is percent where a person types and reads it, and a fraction in JSON and in tables", () => {
  for (const [typed, is] of [
    ["70", 0.7],
    ["65,5 %", 0.655],
    ["100", 1],
    ["0,29", 0.0029],
  ] as const)
    expect(read(typed), typed).toMatchObject({ ok: true, value: { shareGood: is } });
  expect(read("0.7", ".")).toMatchObject({ ok: true, value: { shareGood: 0.7 } });
  expect(writeForm(fields, { shareGood: 0.655 }, tongue).get("shareGood")).toBe("65,5");
  expect(writeForm(fields, { shareGood: 0.29 }, tongue).get("shareGood")).toBe("29");
});

it("says in percent what is out of range", () => {
  const wrong = read("150");
  expect(wrong.ok ? undefined : wrong.errors.get("shareGood")).toBe("Share good is 150 %; give at most 100 %.");
});
