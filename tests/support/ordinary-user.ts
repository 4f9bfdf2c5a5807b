/** Runs functions as an ordinary user: `nobody` on Debian and most other systems. */
const NOBODY = 65_534;

/** Runs `work` without the rights of the superuser, who bypasses file modes. */
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
