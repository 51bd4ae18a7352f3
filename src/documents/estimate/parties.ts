import type { Party } from "../../estimating/input.js";
import { day } from "../../wording/index.js";
import type { Block, Fact } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { earlierNameAndDay } from "./earlier.js";
import { numberOf, type Subject, unitName } from "./subject.js";

/** Who offers what to whom, and for which unit. */
export function parties(subject: Subject): Block[] {
  const { paperwork, sheet, tongue, changes } = subject;
  return letterhead(subject, "Estimate", [
    ["Number", numberOf(subject)],
    ["Date", day(paperwork.date ?? sheet.asOf, tongue.locale)],
    ["Replaces", changes && earlierNameAndDay(changes.earlier, tongue)],
    ["Good until", day(sheet.validUntil, tongue.locale)],
  ]);
}

/** Shop, paper, owner and unit. */
export function letterhead(subject: Subject, title: string, facts: Parameters<typeof known>[0]): Block[] {
  const { shop, owner } = subject.paperwork;
  return [
    {
      is: "columns",
      shares: [0.56, 0.44],
      columns: [
        [
          { is: "shop", text: oneLine(shop?.name ?? "") },
          ...(shop ? reach(shop).map((text): Block => ({ is: "paragraph", text, small: true })) : []),
        ],
        [
          { is: "title", text: title },
          { is: "facts", labels: 66, facts: known(facts) },
        ],
      ],
    },
    { is: "rule" },
    {
      is: "columns",
      shares: [0.44, 0.56],
      columns: [
        [
          { is: "heading", text: "Owner" },
          { is: "facts", labels: 66, facts: owner ? ofParty(owner) : known([["Name", "not given"]]) },
        ],
        [
          { is: "heading", text: "Unit" },
          { is: "facts", labels: 92, facts: ofUnit(subject) },
        ],
      ],
    },
  ];
}

const reach = ({ address = [], phone, email, taxNumber, registration }: Party): string[] =>
  [
    address.join(", "),
    [phone, email].filter(Boolean).join("  ·  "),
    [taxNumber && `Tax number ${taxNumber}`, registration && `Registered ${registration}`].filter(Boolean).join("  ·  "),
  ].filter(Boolean);

const ofParty = ({ name, address = [], phone, email, taxNumber }: Party): Fact[] =>
  known([
    ["Name", oneLine(name)],
    ["Address", address.join("\n")],
    ["Phone", phone],
    ["E-mail", email],
    ["Tax number", taxNumber],
  ]);

function ofUnit(subject: Subject): Fact[] {
  const { input, cash } = subject;
  const { serial, declaredValue, grade, accessories = [], storedData } = input.unit;
  return known([
    ["Maker, model", unitName(subject)],
    ["Serial", serial && oneLine(serial)],
    ["Declared value", declaredValue === undefined ? undefined : cash(declaredValue)],
    ["Grade", input.rateBook.grades.find(({ id }) => id === grade)?.name],
    ["Came with", accessories.length > 0 ? accessories.join(", ") : "no accessories"],
    ["Stored data", storedData === "" ? "none" : storedData && `${storedData}. Keep a copy: the work may erase it.`],
  ]);
}

/** Facts that are known; the rest are left out. */
export const known = (pairs: readonly (readonly [string, string | undefined])[]): Fact[] =>
  pairs.flatMap(([label, value]) => (value ? [{ label, value }] : []));
