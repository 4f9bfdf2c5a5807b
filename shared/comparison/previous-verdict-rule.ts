/**
 * The verdict by the rule of version 1: every burn a replicate, one look, 95 %, and the scatter of the other revision
 * for a single burn. It is shown where the verdicts differ, so that a person who remembers the old one learns that the
 * rule changed, not the burns.
 */
import type { Verdict } from '../contract/comparison.ts';
import { compareRanks } from '../statistics/rank-comparison.ts';
import { pooledVariance } from '../statistics/within-groups.ts';
import { completeBlocks } from './blocks.ts';
import { type Measured, verdictOf } from './compare-result.ts';
import { compareBlocks, compareGroups } from './mean-difference.ts';
import type { ResultScale } from './result-scales.ts';

/** @param values of the burns of both revisions, on the comparing scale */
export function previousVerdict(values: readonly Measured[], scale: ResultScale, inBlocks: boolean): Verdict {
  const [a, b] = [0, 1].map((side) => values.filter(({ place: index }) => index === side)) as [Measured[], Measured[]];
  if (a.length === 0 || b.length === 0 || a.length + b.length < 3) return 'cannotTell';
  const [valuesA, valuesB] = [a, b].map((group) => group.map(({ value }) => value)) as [number[], number[]];
  if (scale.scale === 'ranks') return verdictOf(compareRanks(valuesB, valuesA).interval, scale);
  const blocks = inBlocks ? completeBlocks(values) : [];
  const lone = Math.min(a.length, b.length) === 1 ? pooledVariance([valuesA, valuesB]) : undefined;
  const { interval95, standardError } = blocks.length >= 2 ? compareBlocks(blocks) : compareGroups(a, b, lone);
  return standardError === 0 ? 'cannotTell' : verdictOf(interval95, scale);
}
