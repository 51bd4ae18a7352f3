/** What a write answers: what happened, as a value. */
export type Added<T> =
  | { readonly is: "added"; readonly record: T }
  /** The id (or what must be unique) is in use. */
  | { readonly is: "taken" }
  | Unlinked;

export type Replaced<T> =
  | { readonly is: "replaced"; readonly record: T }
  /** Someone else saved first; `current` is theirs. */
  | { readonly is: "moved"; readonly current: T }
  | { readonly is: "missing" }
  | { readonly is: "taken" }
  | Unlinked;

/** `field` names a record that does not exist. */
export interface Unlinked {
  readonly is: "unlinked";
  readonly field: string;
  readonly id: string;
}

/** One page of a list; `next` is the `after` of the following page. */
export interface Page<T> {
  readonly rows: readonly T[];
  readonly next?: string;
}

export interface PageWanted {
  readonly limit: number;
  readonly after?: string | undefined;
  readonly newestFirst?: boolean;
}
