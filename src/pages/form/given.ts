type Given<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The same object without the properties that were not given. */
export const given = <T extends object>(value: T): Given<T> =>
  Object.fromEntries(Object.entries(value).filter(([, inner]) => inner !== undefined)) as Given<T>;
