/** `nobody` on Debian and most others. */
const NOBODY = 65_534;

/** Runs `work` without the rights of the superuser, whom no file mode stops. */
export function asOrdinaryUser<T>(work: () => T): T {
  const before = process.geteuid?.();
  if (before !== 0) return work();
  process.seteuid!(NOBODY);
  try {
    return work();
  } finally {
    process.seteuid!(before);
  }
}
