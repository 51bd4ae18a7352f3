import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet, Source } from "../../estimating/sheet.js";
import { workName } from "../../wording/line.js";
import { sourceText } from "../../wording/reasons.js";
import type { Tongue } from "../../wording/tongue.js";
import { entryAt } from "./entry.js";

export interface SheetProps {
  readonly sheet: Sheet;
  /** What the sheet was computed from: names behind its ids. */
  readonly input: EstimateInput;
  readonly tongue: Tongue;
}

/** Where an amount comes from, source by source. */
export const Sources = ({ from, ...props }: SheetProps & { from: readonly Source[] }) => (
  <ul class="sources">
    {from.map((source) => (
      <li>
        <SourceText {...props} source={source} />
      </li>
    ))}
  </ul>
);

const SourceText = ({ source, input, tongue }: SheetProps & { source: Source }) => {
  switch (source.is) {
    case "rate book": {
      const { text, source: provenance, href } = entryAt(input.rateBook, source.entry, tongue);
      return (
        <>
          Rate book: <a href={href}>{text}</a>
          {provenance ? ` (${provenance.basis})` : ""}
        </>
      );
    }
    case "item": {
      const item = input.items.find(({ id }) => id === source.id);
      const where = input.map?.assemblies.find(({ id }) => id === item?.assembly)?.name ?? "the whole unit";
      return item ? (
        <>
          {workName(item, input.rateBook)} × {item.count} on {where}
          {item.reason ? `: ${item.reason}` : ""}
        </>
      ) : (
        sourceText(source, tongue)
      );
    }
    default:
      return sourceText(source, tongue);
  }
};
