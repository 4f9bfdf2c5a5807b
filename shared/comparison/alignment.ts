/** The moment of each burn that becomes zero on the common axis of an overlay. */
import type { Analysis } from '../contract/results.ts';

/** At lighting, at the target, or where the water first passed a temperature. */
export type AlignAt = { at: 'lit' } | { at: 'target' } | { at: 'temperature'; tempC: number };

/**
 * Moment of alignment, seconds since recording started; undefined where the burn has none.
 * @param curve temperature of the water, NaN or null in gaps
 */
export function alignmentS(
  analysis: Pick<Analysis, 'moments'>,
  curve: { timeS: ArrayLike<number>; tempC: ArrayLike<number | null> },
  align: AlignAt,
): number | undefined {
  if (align.at !== 'temperature') return analysis.moments.find(({ kind }) => kind === align.at)?.elapsedS;
  const litS = analysis.moments.find(({ kind }) => kind === 'lit')?.elapsedS ?? -Infinity;
  for (let index = 1; index < curve.timeS.length; index++) {
    const [before, here] = [curve.tempC[index - 1], curve.tempC[index]];
    if (before === null || before === undefined || here === null || here === undefined) continue;
    if (curve.timeS[index]! < litS || !(before < align.tempC && here >= align.tempC)) continue;
    const share = (align.tempC - before) / (here - before);
    return curve.timeS[index - 1]! + share * (curve.timeS[index]! - curve.timeS[index - 1]!);
  }
  return undefined;
}
