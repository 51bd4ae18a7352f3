/** What changed since the revision before: money by cause first, then row by row. */
import type { FaultsFound } from "../../estimating/agreement/faultsFound.js";
import { markText, signedMoney } from "../../wording/change.js";
import { money, percent } from "../../wording/figures.js";
import { wordsIn } from "../../wording/tongue.js";
import { isUntaxed, untaxed } from "../../wording/untaxed.js";
import { figure, figures, Table } from "../frame/table.js";
import { textsOf } from "./ownerFrame.js";
import { prepaidNow } from "./standing.js";
import type { EstimateView, OwnerChanges } from "./view.js";

export const Changes = ({ view }: { view: EstimateView }) => {
  const { changes, tongue, language, answer, paper } = view;
  if (changes === undefined) return null;
  // What was declined is told as what would have been; its totals stand under how it added up.
  const declined = answer?.answer === "declined";
  const texts = textsOf(view).changes;
  const { words } = wordsIn(language);
  const spoken = { words: isUntaxed(view.sheet.totals) ? untaxed(words) : words };
  return (
    <section class="changes" aria-labelledby="changes-name">
      <h2 id="changes-name">{declined ? texts.declined(paper.revision) : texts.since(changes.since, changes.agreed)}</h2>
      {changes.causes.length > 0 ? (
        <Table
          class="lines"
          caption={texts.caption}
          heads={[texts.because, figure(textsOf(view).head.total)]}
          rows={changes.causes.map(({ text, amount }) => [text, signedMoney(amount, tongue)])}
          foot={[
            [spoken.words.paperChanges.difference, signedMoney(changes.total.difference, tongue)],
            ...(declined ? [] : [[spoken.words.paperChanges.totalNow, money(changes.total.after, tongue)]]),
          ]}
        />
      ) : (
        <p>{changes.total.difference !== 0 ? spoken.words.paperChanges.notSplit : texts.same}</p>
      )}
      {changes.faults ? <Faults faults={changes.faults} view={view} /> : null}
      {changes.figures.length > 0 && !declined ? (
        <ul>
          {changes.figures.map((figure) => (
            <li>{figure}</li>
          ))}
        </ul>
      ) : null}
      {changes.rows.length > 0 ? (
        <details class="fold" id="changed-rows" open={changes.rows.length <= 6}>
          <summary>{texts.rows(changes.rows.length)}</summary>
          <ul class="rows">
            {changes.rows.map((row) => (
              <Row
                row={row}
                mark={markText(row.mark, spoken)}
                amount={signedMoney(row.amount, tongue)}
                aside={texts.notInTotal}
              />
            ))}
          </ul>
          <p class="hint">{texts.hint}</p>
        </details>
      ) : null}
    </section>
  );
};

const Faults = ({ faults: { each, together }, view: { tongue, language } }: { faults: FaultsFound; view: EstimateView }) => {
  const texts = wordsIn(language).words.paperChanges;
  const shares = each.some(({ shared }) => shared !== 0);
  const share = (amount: number) => (shares ? [amount === 0 ? "" : money(amount, tongue)] : []);
  return (
    <Table
      class="lines"
      caption={texts.faults}
      captionSeen
      heads={[texts.foundSince, ...figures(texts.taxIncluded, ...(shares ? [texts.ofItShared] : []))]}
      rows={[
        ...each.map(({ name, reason, newPlace, is, inTotal, price, shared }) => [
          <>
            {name}
            {reason ? <span class="why"> {reason}</span> : null}
            {newPlace ? <span class="why"> {texts.newPlace(newPlace)}</span> : null}
            {is === "if found" ? <span class="why"> {texts.onlyIfNecessary}</span> : null}
            {is === "optional" && !inTotal ? <span class="why"> {texts.yoursToChoose}</span> : null}
          </>,
          signedMoney(price, tongue),
          ...share(shared),
        ]),
        ...(each.length > 1
          ? [[<strong>{texts.together}</strong>, <strong>{signedMoney(together, tongue)}</strong>, ...share(0)]]
          : []),
      ]}
    />
  );
};

const Row = ({
  row,
  mark,
  amount,
  aside,
}: {
  row: OwnerChanges["rows"][number];
  mark: string;
  amount: string;
  aside: string;
}) => (
  <li class="entry">
    <span class="entry-name">
      <span class="tag">{mark}</span> {row.title}
      {row.reason ? <span class="why"> {row.reason}</span> : null}
      {row.fields.length > 0 ? <span class="why"> {row.fields.join(", ")}</span> : null}
    </span>
    <span class="entry-amount">
      {amount}
      {row.inTotal ? null : <span class="hint"> {aside}</span>}
    </span>
  </li>
);

/** More than this, and the headings start folded. */
const SHORT = 15;

export const MadeOf = ({ view }: { view: EstimateView }) => {
  const { sheet, tongue } = view;
  const texts = textsOf(view).madeOf;
  const { lines, headings, adjustments, totals } = sheet;
  const taxGroups = isUntaxed(totals) ? [] : totals.taxGroups;
  // 'VAT 20 %' says its rate already.
  const baseOf = ({ name, percent: rate, base }: (typeof taxGroups)[number]) => {
    const said = percent(rate, tongue.locale);
    const squeezed = (text: string) => text.replaceAll(/\s/g, "");
    return texts.ofBase(squeezed(name).includes(squeezed(said)) ? "" : said, money(base, tongue)).trim();
  };
  return (
    <section class="ledger" id="made-of" data-follows aria-labelledby="made-of-name">
      <h3 id="made-of-name">{texts.name}</h3>
      {headings.map(({ heading, amount: sum }, index) => (
        <details class="group" id={`heading-${index + 1}`} open={lines.length <= SHORT}>
          <summary class="entry">
            <span class="entry-name">{heading}</span>
            <span class="entry-amount">{money(sum, tongue)}</span>
          </summary>
          <ul class="rows">
            {lines
              .filter((line) => line.heading === heading)
              .map(({ title, note, count, amount }) => (
                <li class="entry">
                  <span class="entry-name">
                    {title}
                    {count === undefined ? "" : ` × ${count}`}
                    {note ? <span class="why"> {note}</span> : null}
                  </span>
                  <span class="entry-amount">{money(amount, tongue)}</span>
                </li>
              ))}
          </ul>
        </details>
      ))}
      <Sum name={texts.sum} amount={money(totals.linesNet, tongue)} strong />
      {adjustments.map(({ title, amount }) => (
        <Sum name={title} amount={money(amount, tongue)} />
      ))}
      {taxGroups.length > 0 ? <Sum name={texts.withoutTax} amount={money(totals.withoutTax, tongue)} /> : null}
      {taxGroups.map((group) => (
        <Sum name={group.name} note={baseOf(group)} amount={money(group.tax, tongue)} />
      ))}
      <Sum name={texts.total(totals.pricesIncludeTax)} amount={money(totals.total, tongue)} strong />
      {prepaidNow(view) === 0 ? null : (
        <>
          <Sum name={texts.paid} amount={money(-totals.prepaid, tongue)} />
          <Sum name={texts.due} amount={money(totals.due, tongue)} strong />
        </>
      )}
    </section>
  );
};

const Sum = ({ name, note, amount, strong = false }: { name: string; note?: string; amount: string; strong?: boolean }) => (
  <p class={strong ? "entry strong" : "entry"}>
    <span class="entry-name">
      {name}
      {note ? <span class="why"> {note}</span> : null}
    </span>
    <span class="entry-amount">{amount}</span>
  </p>
);
