/** Warns where what is fitted may not do what the original did. Never blocks: the technician decides. */
import { type Index, indexed } from "../book.js";
import type { IsoDate, OriginalPart, PartKind, PartType, Percent, Provenance, RateBook, WorkItem } from "../input.js";
import { divide } from "../money/rounding.js";
import { PERCENT_SCALE, WHOLE } from "../money/scales.js";
import type { Warning } from "../sheet.js";
import { type Marking, readMarking } from "./marking.js";
import { type Tolerance, usualTolerance } from "./tolerance.js";

/** Of every item, options not chosen included. Items without an original, or whose part is unknown, are passed over. */
export function substitutionWarnings(
  items: readonly WorkItem[],
  kinds: readonly PartKind[],
  { partTypes }: Pick<RateBook, "partTypes">,
): Warning[] {
  const types = indexed(partTypes, ({ id }) => id);
  const byKind = indexed(kinds, ({ id }) => id);
  const read = readingOnce();
  return items.flatMap((item) => {
    if (item.count === 0 || !item.original || !item.part) return [];
    const kind = "kind" in item.part ? byKind.get(item.part.kind)?.is : undefined;
    const type = types.get(kind?.type ?? ("type" in item.part ? item.part.type : ""))?.is;
    return type ? [...compare(item.id, item.original, originalType(item.original, types), type, kind, read)] : [];
  });
}

/** The same few markings stand on many items. */
function readingOnce(): typeof readMarking {
  const known = new Map<string, Marking | undefined>();
  return (text, family) => {
    const key = `${family} ${text}`;
    if (!known.has(key)) known.set(key, readMarking(text, family));
    return known.get(key);
  };
}

const originalType = ({ type }: OriginalPart, types: Index<PartType>) => (type === undefined ? undefined : types.get(type)?.is);

function* compare(
  item: string,
  original: OriginalPart,
  fitted: PartType | undefined,
  type: PartType,
  kind: PartKind | undefined,
  read: typeof readMarking,
): Generator<Warning> {
  const part = kind?.name ?? type.name;
  const was = original.value === undefined ? undefined : read(original.value, (fitted ?? type).family);
  const now = kind?.value === undefined ? undefined : read(kind.value, type.family);

  const rated = kind?.ratedVolts ?? now?.volts;
  const ratedBefore = original.ratedVolts ?? was?.volts;
  if (rated !== undefined && ratedBefore !== undefined && rated < ratedBefore)
    yield { is: "lower voltage", item, part, original: ratedBefore, replacement: rated };

  const working = original.workingVolts;
  const limitPercent = deratingLimit(type);
  if (rated !== undefined && working !== undefined && limitPercent !== undefined && isOverDerated(working, rated, limitPercent))
    yield { is: "derating", item, part, working, rated, limitPercent };

  if (type.polarised && fitted && !fitted.polarised) yield { is: "polarised", item, part };
  if (original.audioGrade && kind && !kind.audioGrade) yield { is: "not audio grade", item, part };

  if (original.value !== undefined && kind?.value !== undefined && original.value.trim() !== kind.value.trim()) {
    if (hasValue(fitted ?? type) && !was) yield { is: "value unreadable", item, part, marking: original.value };
    if (hasValue(type) && !now) yield { is: "value unreadable", item, part, marking: kind.value };
    if (was && now) yield* valueOff(item, part, was, now, toleranceOf(original, was, fitted ?? type));
  }
}

const hasValue = ({ family }: PartType) => family === "capacitor" || family === "resistor" || family === "control";

const toleranceOf = ({ tolerancePercent }: OriginalPart, was: Marking, type: PartType): Tolerance =>
  tolerancePercent === undefined ? (was.tolerance ?? usualTolerance(type)) : { below: tolerancePercent, above: tolerancePercent };

function* valueOff(item: string, part: string, was: Marking, now: Marking, { below, above }: Tolerance): Generator<Warning> {
  if (was.of !== now.of) return;
  const off = now.value - was.value;
  const offPercent = percentOff(off, was.value);
  const tolerancePercent = off < 0n ? below : above;
  if (offPercent > tolerancePercent) yield { is: "value off", item, part, offPercent, tolerancePercent };
}

/** A link of no ohms is off by 100 % from anything but another. */
const percentOff = (off: bigint, from: bigint): Percent =>
  from === 0n ? (off === 0n ? 0 : 100) : divide((off < 0n ? -off : off) * BigInt(WHOLE), from) / PERCENT_SCALE;

interface Dated {
  readonly asOf: IsoDate;
  readonly source: Provenance;
}

type Dielectric = NonNullable<PartType["dielectric"]>;

/** Working voltage at most this much of the rated voltage. */
export const DERATING: Readonly<Record<Dielectric, Dated & { readonly limitPercent: Percent }>> = {
  tantalum: {
    asOf: "2026-11-25",
    source: {
      basis: "published",
      note: "manufacturers' notes on solid tantalum: about half the rating, such as a 50 V part on a 24 V rail",
    },
    limitPercent: 50,
  },
  aluminium: { asOf: "2026-11-25", source: { basis: "common practice, no source" }, limitPercent: 80 },
  film: { asOf: "2026-11-25", source: { basis: "common practice, no source", note: "the rating itself" }, limitPercent: 100 },
  other: { asOf: "2026-11-25", source: { basis: "common practice, no source", note: "the rating itself" }, limitPercent: 100 },
};

/** Percent of the rating that a capacitor may work at; undefined for other parts. */
const deratingLimit = ({ family, dielectric }: PartType): Percent | undefined =>
  family === "capacitor" ? DERATING[dielectric ?? "other"].limitPercent : undefined;

const millivolts = (volts: number): number => Math.round(volts * 1000);

const isOverDerated = (working: number, rated: number, limitPercent: Percent): boolean =>
  millivolts(working) * 100 > millivolts(rated) * limitPercent;
