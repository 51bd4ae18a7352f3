/** The rate book in full: every rate and standard, with what it rests on. */
import type { Provenance, RateBook, ThreePoint } from "../../estimating/input.js";
import { money, percent, plainNumber } from "../../wording/figures.js";
import { taxRoundingText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { type Frame, Page } from "../frame/layout.js";
import { entryAnchor } from "../sheet/entry.js";
import { Plain, Standards } from "./standards.js";

interface RateBookPageProps {
  readonly frame: Frame;
  readonly book: RateBook;
  readonly locale: string;
  /** Other versions on record. */
  readonly versions: readonly number[];
}

export const RateBookPage = ({ frame, book, locale, versions }: RateBookPageProps) => {
  const tongue: Tongue = { locale, currency: book.currency };
  const price = (amount: number) => money(amount, tongue);
  const share = (value: number) => percent(value, locale);
  const minutes = (value: number) => plainNumber(value, locale);
  const time = (at: ThreePoint) => `${minutes(at.likely)}\u00a0min (${minutes(at.low)} to ${minutes(at.high)})`;
  const from = (source: Provenance) => source.basis + (source.note ? `: ${source.note}` : "");
  const rows = <T,>(list: readonly T[], at: string, cells: (one: T) => readonly string[]) =>
    list.map((one, index) => ({ id: entryAnchor(`/${at}/${index}`), cells: cells(one) }));

  return (
    <Page frame={frame} title="Rate book" at="/rate-book">
      <div class="heading">
        <h1>{book.name}</h1>
        <p>
          Version {book.version}, in force from {book.inForceFrom}, {book.currency}
        </p>
      </div>
      <p>
        Every price rests on these figures. A version never changes; a change is a new version, and estimates keep the one they
        were written with. Times are likely (shortest to longest). New versions come through the API,{" "}
        <code>PUT /api/rate-books/{book.id}</code>.
      </p>
      {versions.length > 1 ? (
        <p class="links">
          {versions.map((version) => (
            <a href={`/rate-book?version=${version}`} {...(version === book.version ? { "aria-current": "true" } : {})}>
              Version {version}
            </a>
          ))}
        </p>
      ) : null}

      <Standards
        title="Labour classes"
        head={["Class", "An hour", "Attended", "Rests on"]}
        rows={rows(book.labourClasses, "labourClasses", (one) => [
          one.name,
          price(one.ratePerHour),
          one.attended ? "yes" : "no",
          from(one.source),
        ])}
      />
      <Standards
        title="Condition grades"
        head={["Grade", "Times at", "Spread", "Rests on"]}
        rows={rows(book.grades, "grades", (one) => [
          one.name,
          share(one.labourPercent),
          share(one.spreadPercent),
          from(one.source),
        ])}
      />
      <Standards
        title="Fasteners and connections"
        head={["Kind", "Remove", "Refit", "Rests on"]}
        rows={rows(book.fasteners, "fasteners", (one) => [one.kind, time(one.remove), time(one.refit), from(one.source)])}
      />
      <Standards
        title="Access by standard"
        lead="For boards that are counted and not drawn."
        head={["Board", "Remove", "Refit", "Rests on"]}
        rows={rows(book.accessStandards, "accessStandards", (one) => [
          `${one.size}, ${one.mounting}`,
          time(one.remove),
          time(one.refit),
          from(one.source),
        ])}
      />
      <Standards
        title="Soldered leads"
        lead="Each lead of a replaced part is desoldered, cleared, fitted, soldered and inspected."
        head={["Step", "Each lead", "Rests on"]}
        rows={(["desolder", "clear", "fit", "solder", "inspect"] as const).map((step) => ({
          id: entryAnchor(`/leads/${step}`),
          cells: [step, time(book.leads[step]), from(book.leads.source)],
        }))}
      />
      <Standards
        title="Part types"
        head={["Type", "Leads or time", "Usual cost", "Rests on"]}
        rows={rows(book.partTypes, "partTypes", (one) => [
          one.name,
          one.leads === undefined ? (one.minutes ? time(one.minutes) : "") : `${one.leads} leads`,
          price(one.typicalCost),
          from(one.source),
        ])}
      />
      <Standards
        title="Operations"
        head={["Operation", "Sort", "Set-up", "Each", "Rests on"]}
        rows={rows(book.operations, "operations", (one) => [
          one.name,
          one.sort,
          time(one.setup),
          time(one.unit),
          from(one.source),
        ])}
      />
      <Plain
        title="Parts"
        rows={[
          ...book.parts.markUp.map(({ upTo, percent }): readonly [string, string, string] => [
            entryAnchor("/parts/markUp"),
            upTo === undefined ? "Mark-up above that" : `Mark-up up to ${price(upTo)} each`,
            share(percent),
          ]),
          [
            entryAnchor("/parts/packs"),
            "Packs",
            book.parts.packs === "used" ? "the pieces used are charged" : "whole packs are charged",
          ],
          [entryAnchor("/parts/offerGoodForDays"), "An offer is good for", `${book.parts.offerGoodForDays} days`],
          [
            entryAnchor("/parts/sundries"),
            "Sundries",
            `${share(book.parts.sundries.percentOfParts)} of parts and ${share(book.parts.sundries.percentOfLabour)} of labour${book.parts.sundries.cap === undefined ? "" : `, at most ${price(book.parts.sundries.cap)}`}`,
          ],
        ]}
      />
      <Plain
        title="Scarcity"
        rows={[
          ...Object.entries(book.scarcity.marginPercent).map(([scarcity, margin]): readonly [string, string, string] => [
            entryAnchor("/scarcity/marginPercent"),
            `Margin, ${scarcity}`,
            share(margin),
          ]),
          [entryAnchor("/scarcity/fewSources"), "Scarce below", `${book.scarcity.fewSources} sources, none of them new`],
          [entryAnchor("/scarcity/freshDays"), "An offer counts as fresh for", `${book.scarcity.freshDays} days`],
          ...Object.entries(book.scarcity.shareGood).map(([state, good]): readonly [string, string, string] => [
            entryAnchor("/scarcity/shareGood"),
            `Expected to be good, ${state}`,
            share(good * 100),
          ]),
          [entryAnchor("/scarcity/source"), "Rests on", from(book.scarcity.source)],
        ]}
      />
      <Plain
        title="Charges and terms"
        rows={[
          [entryAnchor("/billing/incrementMinutes"), "Billing step", duration(book.billing.incrementMinutes, locale)],
          [entryAnchor("/billing/minimumCharge"), "Minimum charge, labour and access", price(book.billing.minimumCharge)],
          [
            entryAnchor("/fees/diagnosis"),
            "Diagnosis fee",
            `${price(book.fees.diagnosis.amount)}${book.fees.diagnosis.creditedOnAgreement ? ", credited when the work goes ahead" : ""}`,
          ],
          [entryAnchor("/fees/rushPercent"), "Rush charge on labour and access", share(book.fees.rushPercent)],
          [entryAnchor("/fees/storagePerDay"), "Storage by the day", price(book.fees.storagePerDay)],
          [entryAnchor("/deposit/scarcePartsPercent"), "Deposit on scarce parts", share(book.deposit.scarcePartsPercent)],
          [entryAnchor("/deposit/labourPercent"), "Deposit on labour", share(book.deposit.labourPercent)],
          [entryAnchor("/ceiling/abovePercent"), "Ceiling above the total", share(book.ceiling.abovePercent)],
          [
            entryAnchor("/calendar/weeklyBenchMinutes"),
            "Bench time in a week",
            duration(book.calendar.weeklyBenchMinutes, locale),
          ],
          [entryAnchor("/valueSharePercent"), "Flagged above this share of the declared value", share(book.valueSharePercent)],
          [entryAnchor("/validityDays"), "An estimate is valid for", `${book.validityDays} days`],
        ]}
      />
      <Plain
        title="Tax"
        rows={[
          ...book.tax.categories.map(({ name, percent }): readonly [string, string, string] => [
            entryAnchor("/tax/categories"),
            name,
            share(percent),
          ]),
          [entryAnchor("/tax/included"), "Rates and prices", book.tax.included ? "include tax" : "are without tax"],
          ...(["labour", "parts", "freight", "fees"] as const).map((what): readonly [string, string, string] => [
            entryAnchor(`/tax/${what}`),
            `Category of ${what}`,
            book.tax.categories.find(({ id }) => id === book.tax[what])?.name ?? book.tax[what],
          ]),
          [entryAnchor("/tax/rounding"), "Rounding", taxRoundingText(book.tax.rounding)],
        ]}
      />
    </Page>
  );
};
