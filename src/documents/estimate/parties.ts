import type { Party } from "../../estimating/input.js";
import type { Words } from "../../wording/english/index.js";
import { day } from "../../wording/time.js";
import type { Block, Fact } from "../layout/block.js";
import { fitWithin } from "../picture/picture.js";
import { oneLine } from "../type/shape.js";
import { earlierNameAndDay } from "./earlier.js";
import { LOGO, numberOf, type Subject, unitName } from "./subject.js";

/** Who offers what to whom, and for which unit. */
export function parties(subject: Subject): Block[] {
  const { paperwork, sheet, tongue, changes, words } = subject;
  const { head } = words.paper;
  return letterhead(subject, head.estimate, [
    [head.number, numberOf(subject)],
    [head.date, day(paperwork.date ?? sheet.asOf, tongue.locale)],
    [head.draft, subject.draft ? head.notIssued : undefined],
    [head.replaces, changes && earlierNameAndDay(changes.earlier, subject)],
    [head.goodUntil, day(sheet.validUntil, tongue.locale)],
  ]);
}

/** Shop, paper, owner and unit. */
export function letterhead(subject: Subject, title: string, facts: Parameters<typeof known>[0]): Block[] {
  const { paperwork, words } = subject;
  const { owner } = paperwork;
  const { head, unit } = words.paper;
  return [
    ...shopHead(subject, title, facts),
    {
      is: "columns",
      shares: [0.44, 0.56],
      columns: [
        [
          { is: "heading", text: head.owner },
          { is: "facts", labels: 66, facts: owner ? ofParty(owner, words) : known([[head.name, head.notGiven]]) },
        ],
        [
          { is: "heading", text: unit.unit },
          { is: "facts", labels: 92, facts: ofUnit(subject) },
        ],
      ],
    },
  ];
}

const shopHead = (subject: Subject, title: string, facts: Parameters<typeof known>[0]): Block[] => {
  const { shop } = subject.paperwork;
  return [
    {
      is: "columns",
      shares: [0.56, 0.44],
      columns: [
        [
          ...logoOf(subject),
          { is: "shop", text: oneLine(shop?.name ?? "") },
          ...(shop ? reach(shop, subject.words).map((text): Block => ({ is: "paragraph", text, small: true })) : []),
        ],
        [
          { is: "title", text: title },
          { is: "facts", labels: 66, facts: known(facts) },
        ],
      ],
    },
    { is: "rule" },
  ];
};

/** The same on fewer lines. */
export function shortHead(subject: Subject): Block[] {
  const { paperwork, sheet, tongue, changes, words } = subject;
  const { head } = words.paper;
  const { owner } = paperwork;
  const [{ value: model } = { value: "" }, ...unit] = ofUnit(subject);
  const lines = (texts: readonly (string | undefined)[]): Block[] =>
    texts.filter((text) => text !== undefined && text !== "").map((text) => ({ is: "paragraph", text: text! }));
  return [
    ...shopHead(subject, head.estimate, [
      [head.number, numberOf(subject)],
      [head.date, day(paperwork.date ?? sheet.asOf, tongue.locale)],
      [head.draft, subject.draft ? head.notIssued : undefined],
      [head.replaces, changes && earlierNameAndDay(changes.earlier, subject)],
    ]),
    { is: "gap", height: 4 },
    {
      is: "columns",
      shares: [0.38, 0.62],
      columns: [
        lines([
          oneLine(owner?.name ?? head.notGiven),
          owner?.address?.join(", "),
          [owner?.phone, owner?.email].filter(Boolean).join(" · "),
          owner?.taxNumber && head.taxNumberOf(owner.taxNumber),
        ]),
        lines([model, unit.map(({ label, value }) => `${label}: ${value}`).join(" · ")]),
      ],
    },
  ];
}

const LOGO_BOX = { width: 190, height: 54 };

function logoOf({ logo, paperwork: { shop }, words }: Subject): Block[] {
  if (!logo) return [];
  const alternative = words.paper.furniture.logo(oneLine(shop?.name ?? ""));
  return [
    { is: "picture", picture: LOGO, alternative, ...fitWithin(logo, LOGO_BOX) },
    { is: "gap", height: 6 },
  ];
}

const reach = ({ address = [], phone, email, taxNumber, registration }: Party, { paper: { head } }: Words): string[] =>
  [
    address.join(", "),
    [phone, email].filter(Boolean).join("  ·  "),
    [taxNumber && head.taxNumberOf(taxNumber), registration && head.registeredAs(registration)].filter(Boolean).join("  ·  "),
  ].filter(Boolean);

const ofParty = ({ name, address = [], phone, email, taxNumber }: Party, { paper: { head } }: Words): Fact[] =>
  known([
    [head.name, oneLine(name)],
    [head.address, address.join("\n")],
    [head.phone, phone],
    [head.email, email],
    [head.taxNumber, taxNumber],
  ]);

function ofUnit(subject: Subject): Fact[] {
  const { input, cash, words } = subject;
  const texts = words.paper.unit;
  const { serial, declaredValue, grade, accessories = [], storedData } = input.unit;
  return known([
    [texts.makerAndModel, unitName(subject)],
    [texts.serial, serial && oneLine(serial)],
    [texts.declaredValue, declaredValue === undefined ? undefined : cash(declaredValue)],
    [texts.grade, input.rateBook.grades.find(({ id }) => id === grade)?.name],
    [texts.cameWith, accessories.join(", ")],
    [texts.storedData, storedData === "" ? texts.none : storedData && texts.keepACopy(storedData)],
  ]);
}

/** Facts that are known; the rest are left out. */
export const known = (pairs: readonly (readonly [string, string | undefined])[]): Fact[] =>
  pairs.flatMap(([label, value]) => (value ? [{ label, value }] : []));

/** What the owner reported, what was found, and how the unit arrived. */
export const conditionFacts = (
  { input: { unit }, words: { paper } }: Pick<Subject, "input" | "words">,
  { found = true, onArrival = true } = {},
): Fact[] =>
  known([
    [paper.unit.reported, unit.reported],
    [paper.unit.found, found ? unit.found : undefined],
    [paper.unit.onArrival, onArrival ? unit.condition : undefined],
  ]);

export function condition(subject: Subject): Block[] {
  const { paper } = subject.words;
  const facts = conditionFacts(subject);
  return facts.length === 0
    ? []
    : [
        { is: "heading", text: paper.unit.faultAndCondition },
        { is: "facts", labels: 66, facts },
      ];
}
