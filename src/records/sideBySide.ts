/** What is read side by side over HTTP is asked for in one request: on the edge each request costs more than its statements. */
import type { InArgs, InStatement, ResultSet } from "@libsql/client";

export type Statement = InStatement | [string, InArgs?];

interface Asked {
  readonly statements: readonly Statement[];
  readonly resolve: (results: ResultSet[]) => void;
  readonly reject: (error: unknown) => void;
}

/** Turns of promises after which what is asked side by side has come together. */
const TURNS = 4;
const MOST = 64;

export class SideBySide {
  readonly #asked: Asked[] = [];

  /** `isRefusal`: the database answered, and told that a statement is none. */
  constructor(
    readonly send: (statements: Statement[]) => Promise<ResultSet[]>,
    readonly isRefusal: (error: unknown) => boolean,
  ) {}

  ask(statements: readonly Statement[]): Promise<ResultSet[]> {
    return new Promise((resolve, reject) => {
      this.#asked.push({ statements, resolve, reject });
      if (this.#asked.length === 1) void this.#gathered();
    });
  }

  async #gathered(): Promise<void> {
    for (let turn = 0; turn < TURNS; turn += 1) await undefined;
    let together: Asked[] = [];
    for (const each of this.#asked.splice(0)) {
      if (together.length > 0 && statementsOf(together).length + each.statements.length > MOST) {
        void this.#sent(together);
        together = [];
      }
      together.push(each);
    }
    void this.#sent(together);
  }

  async #sent(asked: readonly Asked[]): Promise<void> {
    try {
      const results = await this.send(statementsOf(asked));
      for (const { statements, resolve } of asked) resolve(results.splice(0, statements.length));
    } catch (error) {
      // Whose statement was refused is told by asking one by one.
      if (asked.length > 1 && this.isRefusal(error)) for (const each of asked) void this.#sent([each]);
      else for (const { reject } of asked) reject(error);
    }
  }
}

const statementsOf = (asked: readonly Asked[]): Statement[] => asked.flatMap(({ statements }) => statements);
