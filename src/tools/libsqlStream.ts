/** One stream of the development endpoint: a connection, its stored SQL texts, and the answers to a pipeline's requests. */
import Sqlite from "libsql";
import { fromWire, toWire, type Value } from "./libsqlValue.js";

interface Statement {
  readonly sql?: string;
  readonly sql_id?: number;
  readonly args?: readonly Value[];
  readonly named_args?: readonly { readonly name: string; readonly value: Value }[];
}

type Condition =
  | { readonly type: "ok" | "error"; readonly step: number }
  | { readonly type: "not"; readonly cond: Condition }
  | { readonly type: "and" | "or"; readonly conds: readonly Condition[] }
  | { readonly type: "is_autocommit" };

interface Step {
  readonly condition?: Condition | null;
  readonly stmt: Statement;
}

interface Failure {
  readonly message: string;
  readonly code: string;
}

export class Stream {
  open = true;
  readonly #db: Sqlite.Database;
  readonly #texts = new Map<number, string>();

  constructor(path: string) {
    this.#db = new Sqlite(path);
  }

  close(): void {
    if (this.open) this.#db.close();
    this.open = false;
  }

  /** Never throws: a failure is an answer. */
  answer(request: unknown): unknown {
    const wanted = request as { readonly type: string; readonly [key: string]: unknown };
    try {
      return { type: "ok", response: { type: wanted.type, ...this.#carryOut(wanted) } };
    } catch (error) {
      return { type: "error", error: failure(error) };
    }
  }

  #carryOut(wanted: { readonly type: string; readonly [key: string]: unknown }): object {
    switch (wanted.type) {
      case "execute":
        return { result: this.#execute(wanted.stmt as Statement) };
      case "batch":
        return { result: this.#batch((wanted.batch as { readonly steps: readonly Step[] }).steps) };
      case "sequence":
        this.#db.exec(this.#textOf(wanted as Statement));
        return {};
      case "store_sql":
        this.#texts.set(wanted.sql_id as number, wanted.sql as string);
        return {};
      case "close_sql":
        this.#texts.delete(wanted.sql_id as number);
        return {};
      case "get_autocommit":
        return { is_autocommit: !this.#db.inTransaction };
      case "close":
        this.close();
        return {};
      default:
        throw new Error(`The development endpoint does not know '${wanted.type}'.`);
    }
  }

  #textOf({ sql, sql_id }: Statement): string {
    const text = sql ?? this.#texts.get(sql_id ?? -1);
    if (text === undefined) throw new Error("No such SQL text.");
    return text;
  }

  #execute(stmt: Statement): object {
    const prepared = this.#db.prepare(this.#textOf(stmt));
    prepared.safeIntegers(true);
    const named = Object.fromEntries(
      (stmt.named_args ?? []).map(({ name, value }) => [name.replace(/^[@$:]/, ""), fromWire(value)]),
    );
    const args = stmt.named_args?.length ? named : (stmt.args ?? []).map(fromWire);
    if (!prepared.reader) {
      const { changes, lastInsertRowid } = prepared.run(args);
      return { cols: [], rows: [], affected_row_count: changes, last_insert_rowid: String(lastInsertRowid) };
    }
    prepared.raw(true);
    const cols = prepared.columns().map(({ name, type }) => ({ name, decltype: type }));
    const rows = (prepared.all(args) as unknown[][]).map((row) => row.map(toWire));
    return { cols, rows, affected_row_count: 0, last_insert_rowid: null };
  }

  #batch(steps: readonly Step[]): object {
    const step_results: unknown[] = [];
    const step_errors: (Failure | null)[] = [];
    const holds = (condition: Condition): boolean => {
      switch (condition.type) {
        case "ok":
          return step_results[condition.step] !== null;
        case "error":
          return step_errors[condition.step] !== null;
        case "not":
          return !holds(condition.cond);
        case "and":
          return condition.conds.every(holds);
        case "or":
          return condition.conds.some(holds);
        case "is_autocommit":
          return !this.#db.inTransaction;
      }
    };
    for (const { condition, stmt } of steps) {
      let result: unknown = null;
      let error: Failure | null = null;
      if (!condition || holds(condition)) {
        try {
          result = this.#execute(stmt);
        } catch (thrown) {
          error = failure(thrown);
        }
      }
      step_results.push(result);
      step_errors.push(error);
    }
    return { step_results, step_errors };
  }
}

const failure = (error: unknown): Failure => {
  const { message, code } = error as { readonly message: string; readonly code?: string };
  return { message, code: code ?? "SQLITE_ERROR" };
};
