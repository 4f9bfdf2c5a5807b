/** A field that may be undefined may be left out instead. */
type Known<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The same object without the fields that are undefined: what is not known is left out of a document, not stated as nothing. */
export function withoutUndefined<T extends object>(fields: T): Known<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Known<T>;
}
