/** What the simulator was told: every acknowledged act, in books of its own. The records must say the same, and nothing more. */

export interface PaymentTold {
  readonly id: string;
  /** Below 0: given back. */
  readonly amount: number;
  gone: boolean;
}

export interface EntryTold {
  readonly id: string;
  /** Of the catalogue, and how many of them the shelf had. */
  readonly took?: { readonly kind: string; readonly pieces: number };
  gone: boolean;
}

export interface JobTold {
  readonly id: string;
  readonly owner: string;
  /** Answers as they were acknowledged, as JSON. */
  readonly answers: string[];
  /** Of each revision as it was issued: its sheet as JSON and the hash of its paper. */
  readonly issued: Map<string, { readonly sheet: string; readonly pdfHash: string }>;
  readonly payments: PaymentTold[];
  readonly entries: EntryTold[];
  readonly closeOuts: string[];
  readonly ticks: string[];
  /** Replies by question. */
  readonly questions: Map<string, number>;
  /** What the newest link opens with. */
  fragment?: string;
  erased: boolean;
}

export const newJob = (id: string, owner: string): JobTold => ({
  ...{ id, owner, answers: [], issued: new Map(), payments: [], entries: [], closeOuts: [], ticks: [] },
  ...{ questions: new Map(), erased: false },
});

export const paidOn = ({ payments }: JobTold): number =>
  payments.reduce((sum, { amount, gone }) => (gone ? sum : sum + amount), 0);
