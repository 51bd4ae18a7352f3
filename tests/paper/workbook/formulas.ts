/** OpenFormula references: columns and blocks of a table below its heads, long enough for every row it may have. */
const LAST = 999;

export const column = (table: string, letter: string) => `[$${table}.$${letter}$2:.$${letter}$${LAST}]`;
export const total = (table: string, letter: string) => `SUM(${column(table, letter)})`;
export const sumWhere = (table: string, key: string, is: string, letter: string) =>
  `SUMIF(${column(table, key)};${is};${column(table, letter)})`;

/** The nth column of the row whose first column is the key. */
export const lookUp = (key: string, table: string, nth: number) => `VLOOKUP(${key};[$${table}.$A$2:.$Z$${LAST}];${nth};0)`;

/** A figure by its name in the first column. */
export const named = (name: string, table = "Job") => lookUp(`"${name}"`, table, 2);
