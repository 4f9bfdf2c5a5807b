/** Removes fields that are undefined from an object. */
type Known<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** Returns the same object without the fields that are undefined, since a document leaves out what is not known. */
export function withoutUndefined<T extends object>(fields: T): Known<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Known<T>;
}
