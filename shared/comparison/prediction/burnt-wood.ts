/**
 * How much of a burn's wood is burnt at a moment, from the times of the feeds.
 *
 * Just before a person feeds, the previous charge has burnt down to embers. The burnt share is therefore assumed to
 * rise linearly from feed to feed, without the embers, and to all of the wood at fire out. At a single moment that is
 * wrong by part of a charge: scatter that repeated burns show. The share of embers is a guess, the same in every burn.
 */
export interface Feed {
  /** Seconds after lighting; wood fed before lighting counts as fed at 0. */
  atS: number;
  massKg: number;
}

/**
 * Embers when a new charge is put on, as a share of the charge before, with its standard uncertainty ("common practice,
 * no source").
 */
export const EMBERS_SHARE = 0.3;
export const EMBERS_SHARE_U = 0.2;

/**
 * Returns the share of the wood burnt by each moment, 0 at lighting to 1 at fire out, as a function of seconds after
 * lighting.
 * @param rakedOutKg unburnt wood taken out at fire out: fed, but not burnt
 * @param embersShare of the charge before, when a new one is put on
 * @returns undefined without feeds
 */
export function burntShare(
  feeds: readonly Feed[],
  fireOutS: number,
  rakedOutKg = 0,
  embersShare = EMBERS_SHARE,
): ((elapsedS: number) => number) | undefined {
  const inOrder = feeds.map((feed) => ({ ...feed, atS: Math.max(0, feed.atS) })).sort((x, y) => x.atS - y.atS);
  const totalKg = inOrder.reduce((sum, { massKg }) => sum + massKg, -rakedOutKg);
  if (!(totalKg > 0) || !inOrder.some(({ atS }) => atS > 0 && atS < fireOutS)) return undefined;
  const corners: { atS: number; share: number }[] = [{ atS: 0, share: 0 }];
  let fedKg = 0;
  let lastKg = 0;
  for (const { atS, massKg } of inOrder) {
    const before = corners.at(-1)!;
    if (atS > before.atS && atS < fireOutS) {
      const share = Math.min(1, (fedKg - embersShare * lastKg) / totalKg);
      corners.push({ atS, share: Math.max(before.share, share) });
    }
    fedKg += massKg;
    lastKg = Math.max(0, massKg);
  }
  corners.push({ atS: fireOutS, share: 1 });
  return (elapsedS) => {
    const next = corners.findIndex(({ atS }) => atS >= elapsedS);
    if (next <= 0) return next === 0 ? 0 : 1;
    const [from, to] = [corners[next - 1]!, corners[next]!];
    return from.share + ((to.share - from.share) * (elapsedS - from.atS)) / (to.atS - from.atS);
  };
}
