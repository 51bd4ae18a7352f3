/** What the risk of a job is computed from. Money = integer minor units unless a figure says otherwise; nothing here depends on the sheet. */
import type { Minor, Minutes, ThreePoint } from "../input.js";

/** One of several amounts; the probabilities of a list sum to 1. */
export interface Chance {
  readonly probability: number;
  readonly amount: Minor;
}

/** One line of labour. Minutes already carry the condition grade's percentage; the deterministic price uses `likely`. */
export interface LabourRisk {
  readonly id: string;
  readonly time: ThreePoint;
  /** Minor units per hour. */
  readonly ratePerHour: Minor;
  /** false: not touched by the unit's condition (a soak test). */
  readonly underCondition: boolean;
}

/** What a part costs as bought: `priced` is what the deterministic price charges, `outcomes` what it may come to. */
export interface SourcingRisk {
  readonly id: string;
  readonly priced: Minor;
  readonly outcomes: readonly Chance[];
}

/**
 * Items that turn up together: one Bernoulli shared by labour and parts. `labour` holds the work, and `needs` what is paid once with other groups. Without
 * `needs`, as books had it, `labour` holds the access too: two groups behind the same panel each carry that panel.
 */
export interface FoundRisk {
  readonly id: string;
  /** 0 to 1. */
  readonly probability: number;
  readonly labour: readonly LabourRisk[];
  readonly parts: number;
  readonly sourcing?: readonly SourcingRisk[];
  /** Ids of `shared`. */
  readonly needs?: readonly string[];
}

/** A place, a set-up, a source's freight that only possible work needs: paid once when at least one group that needs it turns up. */
export interface SharedRisk {
  readonly id: string;
  readonly labour: readonly LabourRisk[];
  /** Certain once it is paid; below 0: what is paid where nothing turns up. */
  readonly amount: number;
}

export interface RiskModel {
  /** Coefficient of variation, 0 or more, of the unit-condition factor that multiplies all labour under condition; its mean is 1. */
  readonly conditionCv: number;
  /** The deterministic price has planned labour at its mean; absent: at `likely`. */
  readonly charged?: "expected";
  /** Everything certain. */
  readonly fixed: Minor;
  readonly labour: readonly LabourRisk[];
  readonly sourcing: readonly SourcingRisk[];
  readonly ifFound: readonly FoundRisk[];
  readonly shared?: readonly SharedRisk[];
  /** While `ifFound` are few: by the set of them that turns up, as bits, what it comes to beyond the sum of all these. */
  readonly beyond?: readonly number[];
}

/** Minutes at a rate, in minor units, not rounded. */
export const worth = (minutes: Minutes, ratePerHour: Minor): number => (minutes * ratePerHour) / 60;

/** What the deterministic price has of a time, in minutes. */
export const pricedMinutes = ({ low, likely, high }: ThreePoint, { charged }: Pick<RiskModel, "charged">): Minutes =>
  charged === "expected" ? (low + 4 * likely + high) / 6 : likely;

/** The price with every time as it is charged, every part as priced and nothing found; not rounded. */
export const deterministicPrice = (model: RiskModel): number =>
  model.fixed +
  model.labour.reduce((sum, line) => sum + worth(pricedMinutes(line.time, model), line.ratePerHour), 0) +
  model.sourcing.reduce((sum, part) => sum + part.priced, 0);
