/** All that the bench page shows of one job. */
import type { EstimateInput, Minor } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { Tongue } from "../../wording/tongue.js";
import type { AskedForm } from "../frame/ask.js";
import type { Frame } from "../frame/layout.js";
import type { JobHead } from "../revise/jobFrame.js";
import type { AgreedProps } from "../revise/standingCard.js";
import type { LogRow } from "../revise/workLogPage.js";

export interface BenchView extends AskedForm {
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly input: EstimateInput;
  readonly sheet: Sheet;
  /** Id of the revision that numbers the parts. */
  readonly revision: string;
  /** Time of day at the shop as the page was made. */
  readonly at: string;
  /** Awaited before work begins; 0: nothing is. */
  readonly deposit: Minor;
  /** Who let work begin without it, and why. */
  readonly begunUnpaid?: { readonly by: string; readonly reason: string };
  /** Who works. */
  readonly by: string;
  /** Day the job was closed. */
  readonly closedOn?: string;
  readonly agreed?: AgreedProps;
  /** The owner declined, and nothing is agreed. */
  readonly declined: boolean;
  /** What opening and finding the fault may come to before an answer, by the intake receipt; 0: nothing. */
  readonly looking: Minor;
  /** The timer of who works. */
  readonly timer?: RunningTimer;
  readonly others: readonly RunningTimer[];
  /** Saves the memory, before anything comes off. */
  readonly first: readonly WorkRow[];
  readonly groups: readonly WorkGroup[];
  /** Tests and soak, after everything is back. */
  readonly after: readonly WorkRow[];
  /** Assemblies that only come off for work that is not agreed. */
  readonly leaveIn: ReadonlySet<string>;
  /** Why not all that was found (`of`: its work) is charged, where it passes what was agreed. */
  readonly above?: { readonly of: ReadonlySet<string>; readonly why: string };
  readonly needs: readonly Need[];
  readonly readings: readonly ReadingRow[];
  /** Readings that the work items name. */
  readonly wanted: readonly WantedReading[];
  /** Newest first. */
  readonly recent: readonly LogRow[];
  /** Work whose part another one stands in for, as the form of parts is opened for it. */
  readonly insteadFor?: Need;
  /** Dangers ticked of work in own words. */
  readonly dangers: readonly string[];
  readonly refusal?: Refusal;
  readonly say?: string | undefined;
  /** A new id for each form, so that an entry sent twice is kept once. */
  readonly token: () => string;
}

export interface RunningTimer {
  readonly person: string;
  readonly title: string;
  /** UTC. */
  readonly startedAt: string;
  readonly since: string;
  /** As `workValue` writes it. */
  readonly work: string;
  /** Where it runs, if not here. */
  readonly elsewhere?: { readonly id: string; readonly number: string };
}

export interface WorkGroup {
  readonly name: string;
  readonly assembly?: string;
  readonly hazards: readonly string[];
  readonly works: readonly WorkRow[];
}

export interface WorkRow {
  readonly id: string;
  readonly title: string;
  readonly count: number;
  readonly done: number;
  /** Logged so far. */
  readonly minutes: number;
  readonly reason?: string;
  /** The revision it came with as an extra fault. */
  readonly foundIn?: number;
  /** Why it may not be worked on. */
  readonly blocked?: string;
  /** A cell that keeps the memory: not before it is saved. */
  readonly afterSaving?: true;
  /** Agreed in advance, if it proves necessary. */
  readonly ifFound: boolean;
}

/** A part that a work item takes. Numbers stay the same while the revision does. */
export interface Need {
  readonly number: number;
  readonly item: string;
  readonly work: string;
  readonly kind?: string;
  readonly type: string;
  readonly name: string;
  readonly value?: string;
  readonly needed: number;
  readonly used: number;
  readonly blocked: boolean;
  /** Units that still have pieces of it. */
  readonly donors?: readonly { readonly id: string; readonly name: string; readonly pieces: number }[];
  /** Entry that used it last. */
  readonly last?: { readonly id: string; readonly text: string };
}

export interface WantedReading {
  readonly label: string;
  readonly expected: number;
  readonly unit: string;
  readonly assembly?: string;
}

export interface ReadingRow {
  readonly label: string;
  readonly where?: string;
  readonly expected?: string;
  readonly found: string;
  /** Found less expected. */
  readonly off?: string;
  readonly person: string;
  readonly at: string;
}

/** Why an entry was not kept, and what was typed, so that it can be sent again by override. */
export interface Refusal {
  readonly text: string;
  readonly overridable: boolean;
  readonly sent: readonly (readonly [name: string, value: string])[];
}

/** A piece of work as one form value: `item:ID`, `access`, `access:ASSEMBLY`, `pull:OFFER`. */
export const workValue = ({
  item,
  assembly,
  offer,
}: {
  readonly item?: string | undefined;
  readonly assembly?: string | undefined;
  readonly offer?: string | undefined;
}): string => {
  if (item !== undefined) return `item:${item}`;
  if (offer !== undefined) return `pull:${offer}`;
  return assembly === undefined ? "access" : `access:${assembly}`;
};

export function workFrom(value: string): { item?: string; assembly?: string; offer?: string } {
  const [, is, id] = /^(item|access|pull)(?::(.+))?$/s.exec(value) ?? [];
  if (id === undefined) return {};
  return is === "item" ? { item: id } : is === "pull" ? { offer: id } : { assembly: id };
}
