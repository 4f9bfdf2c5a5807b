/**
 * Why something failed, in the words of the library or system: never empty, which the message of an error may be
 * (several refused connections in one have none).
 */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  if (error.cause instanceof Error) return reasonOf(error.cause);
  if (error.message !== '') return error.message;
  const [first] = error instanceof AggregateError ? error.errors : [];
  if (first !== undefined) return reasonOf(first);
  return 'code' in error && typeof error.code === 'string' ? error.code : error.name;
}
