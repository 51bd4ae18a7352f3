/** The estimate in one page: what is wrong and what will be done, the price, what may be found, and the answer. Nothing is added up here. */
import { profileOf } from "../../estimating/law/profiles.js";
import { couldPass, isAboveOwners, neverMore } from "../../estimating/sheet/terms.js";
import type { Line } from "../../estimating/sheet.js";
import { chance } from "../../wording/figures.js";
import { adjustmentTitle } from "../../wording/line.js";
import { capital, listed } from "../../wording/list.js";
import { day, duration } from "../../wording/time.js";
import { isUntaxed, whyUntaxed } from "../../wording/untaxed.js";
import type { Block, Cell, Row } from "../layout/block.js";
import { fitWithin } from "../picture/picture.js";
import { markOf } from "./earlier.js";
import { byHeading } from "./ledger.js";
import { depositOf, ifDeclined, notCounted } from "./meaning.js";
import { condition, conditionFacts } from "./parties.js";
import { photoAlternative, photoTurned, type Subject } from "./subject.js";

const PHOTO_BOX = { width: 150, height: 112 };
const PHOTO_SHARE = 0.3;

/** The technician's words, or the reported and found faults where there are none; beside them the first photo. */
export function inWords(subject: Subject, { photo: withPhoto = false, short = false } = {}): Block[] {
  const { paperwork, input, words } = subject;
  const texts = words.paper.letter;
  const { summary } = paperwork;
  const said: Block[] =
    summary === undefined
      ? condition(subject)
      : [
          { is: "heading", text: texts.inWords },
          { is: "paragraph", text: summary, large: true },
          { is: "facts", labels: 66, facts: conditionFacts({ input, words }, { found: false, onArrival: !short }) },
        ];
  const [photo] = paperwork.photos ?? [];
  const picture = photo && subject.photos?.get(photo.sha256);
  if (!withPhoto || !picture) return said;
  const shown: Block[] = [
    { is: "gap", height: 13 },
    {
      is: "picture",
      picture: photo.sha256,
      alternative: photoAlternative(photo, 0, words),
      ...fitWithin(photoTurned(picture, photo), PHOTO_BOX),
      ...(photo.turn !== undefined && { turn: photo.turn }),
    },
  ];
  return [{ is: "columns", shares: [1 - PHOTO_SHARE, PHOTO_SHARE], columns: [said, shown] }];
}

/** The technician's words tell the work, and no law profile has the paper describe it. */
export function isToldInWords({ input, paperwork }: Subject): boolean {
  const { basis, requires } = profileOf(input.policy?.profile);
  return paperwork.summary !== undefined && (basis === "shop's own" || !requires.includes("work described"));
}

/**
 * The work, a row for each place: what is done there and how often. What opening, parts and fees come to is in the price. Where there is no
 * room for rows it is run together under the technician's words.
 */
export function workInShort(subject: Subject, short = false): Block[] {
  const { sheet, words } = subject;
  const work = sheet.lines.filter(({ operation, sort }) => operation !== undefined && sort !== "donor pull");
  const places = byHeading(work, subject);
  if (places.size === 0) return [];
  if (short && isToldInWords(subject)) {
    const all = [...places].map(([place, lines]) => `${place}: ${doneAt(lines)}.`);
    return [{ is: "paragraph", small: true, text: `${words.paper.letter.work}: ${all.join(" ")}` }];
  }
  return [
    { is: "heading", text: words.paper.letter.work },
    { is: "facts", labels: 92, facts: [...places].map(([label, lines]) => ({ label, value: doneAt(lines) })) },
  ];
}

/** 'Replace: tantalum × 4, film × 2; Clean switches × 12'. */
function doneAt(lines: readonly Line[]): string {
  const works = new Map<string, string[]>();
  for (const { operation, part, count = 1 } of lines) {
    const times = count > 1 ? ` × ${count}` : "";
    const does = operation!.name + (part ? ": " : times);
    works.set(does, [...(works.get(does) ?? []), ...(part ? [part.name + times] : [])]);
  }
  return [...works].map(([does, parts]) => does + parts.join(", ")).join("; ");
}

/** Price, limits and days. */
export function figures(subject: Subject): Block[] {
  const { sheet, words, cash, tongue } = subject;
  const texts = words.paper.letter;
  const { adjustments, totals, ceiling, days, access, validUntil } = sheet;
  const raised = isAboveOwners(sheet) ? [words.paperMeaning.aboveYourCeiling(cash(ceiling.amount))] : [];
  const taxed = isUntaxed(totals)
    ? whyUntaxed(totals).map((why) => `${why}.`)
    : totals.taxGroups.map(({ name, tax }) => `${name}: ${cash(tax)}.`);
  const rush = adjustments
    .filter(({ sort }) => sort === "rush")
    .map((charge) => `${adjustmentTitle(charge, tongue)}: ${cash(charge.amount)}.`);
  const paid = totals.prepaid === 0 ? [] : [texts.paid(cash(totals.prepaid), cash(totals.due))];
  const opening = sheet.time.charged?.access ?? access.minutes.likely;
  const opened = opening === 0 ? "" : texts.opening(duration(opening, tongue.locale));
  const { inShort, head } = words.paper;
  return [
    {
      is: "figures",
      figures: [
        { label: inShort.total, value: cash(totals.total), note: [...rush, ...taxed, ...paid].join(" ") },
        { label: texts.neverMore, value: cash(neverMore(sheet)), note: [...raised, texts.weStop].join(" ") },
        { label: texts.ready, value: inShort.about(days.total), note: opened, ...notCounted(subject) },
        ...ifDeclined(subject),
        depositOf(subject),
        { label: head.goodUntil, value: day(validUntil, tongue.locale) },
      ],
    },
  ];
}

/** What may be found, and what the owner may choose. */
export function offers(subject: Subject, short = false): Block[] {
  const { sheet, words } = subject;
  const { mayFind, youChoose, filledBox } = words.paper.letter;
  const [found, options] = [possible(subject, short), chosen(subject, short)];
  const [title, ...second] = [...(found.length > 0 ? [mayFind] : []), ...(options.length > 0 ? [youChoose] : [])];
  if (title === undefined) return [];
  const together: Row[] = couldPass(sheet) ? [{ cells: [{ text: words.paper.choices.couldPass }] }] : [];
  return [
    {
      is: "table",
      columns: [
        { title, width: "rest" },
        { title: found.length > 0 ? words.paper.choices.chance : "", width: "fit", align: "right" },
        { title: words.paper.choices.price, width: "fit", align: "right" },
      ],
      rows: [...found, ...together, ...second.map((text): Row => ({ kind: "group", cells: [{ text }] })), ...options],
    },
    ...(sheet.options.length === 0 ? [] : [{ is: "paragraph", small: true, text: filledBox } as const]),
  ];
}

function possible(subject: Subject, short: boolean): Row[] {
  const { sheet, words, cash, tongue } = subject;
  return sheet.ifFound.map(({ id, names, reason, probability, covered, price }): Row => {
    return {
      ...markOf(subject, "if found", id),
      cells: [
        { text: listed(names, words.lists.and), ...(reason && !short && { note: capital(reason) }) },
        { text: probability === undefined ? "" : chance(probability, tongue.locale) },
        { text: covered ? words.paper.choices.covered : cash(price) },
      ],
    };
  });
}

function chosen(subject: Subject, short: boolean): Row[] {
  const { sheet, words, cash } = subject;
  const texts = words.paper.letter;
  return sheet.options.map(({ id, names, reason, chosen: taken, refused, price }): Row => {
    const left = taken || refused === undefined ? "" : words.paper.choices.refused(refused);
    const note = capital([short ? "" : reason, left].filter(Boolean).join(". "));
    const cell: Cell = {
      text: `${listed(names, words.lists.and)}, ${taken ? texts.inIt : texts.onTop}`,
      ...(note && { note }),
      box: taken ? "ticked" : "empty",
    };
    return { ...markOf(subject, "option", id), cells: [cell, { text: "" }, { text: cash(price) }] };
  });
}
