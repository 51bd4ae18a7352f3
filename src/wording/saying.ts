/** Of every field that asks what something costs the shop. */
export const COST_IS = "Without tax that you get back.";

/** What is said of a field to a person, and how its text is read. */
export interface Saying {
  /** As the page labels it, and as every sentence about it begins. */
  readonly label: string;
  readonly hint?: string;
  /** Where the help tells of it, such as `scarce-parts#share-good`. */
  readonly help?: string;
  /** Such as min, days, %. */
  readonly unit?: string;
  readonly kind:
    | "line"
    | "note"
    | "lines"
    | "whole"
    | "decimal"
    | "exact"
    | "money"
    | "day"
    | "tick"
    | "choice"
    | "several"
    | "secret";
  /** Of a decimal: most digits after the sign. Exact: kept as a plain decimal in text. */
  readonly decimals?: number;
  /** Of a decimal: a share from 0 to 1 in JSON and in tables, percent where a person reads and types it. */
  readonly share?: true;
  /** Of money: the field that names its currency; absent: the shop's, and so `""` where the record is in another. */
  readonly currencyIn?: string;
  readonly choices?: readonly string[];
  /** Whose hand it was: left empty, it is that of whoever is signed in. */
  readonly hand?: true;
  /** An empty box takes away what stood there, and is no silence. */
  readonly empties?: true;
  /** May be left empty. */
  readonly optional?: boolean;
}
