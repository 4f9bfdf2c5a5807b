/** Lists what was changed from one revision to another, and what else changed with it. */
import type { Revision } from '../contract/burn-record.ts';
import type { LadderStep } from '../contract/comparison.ts';
import type { Message } from '../contract/results.ts';
import { circumstancesOf, type NamedKind, nothingShared } from './circumstances.ts';
import type { ComparedBurn } from './compared-burn.ts';

export interface StepChanges extends Pick<LadderStep['changed'], 'change' | 'dimensions' | 'together'> {
  others: Message[];
  /** Kinds of things of which the two revisions have none in common. */
  apart: NamedKind[];
}

/** Weather does not count as confounded: its free text hardly ever repeats. */
const confounding = (kind: NamedKind) => kind !== 'weather';

interface Built {
  /** Undefined where the burns are not of exactly one revision: dimensions are then not compared. */
  revision: Revision | undefined;
  burns: readonly ComparedBurn[];
}

export function stepChanges({ revision: before, burns: a }: Built, { revision: after, burns: b }: Built): StepChanges {
  const dimensions = before && after ? changedDimensions(before, after) : [];
  const apart = nothingShared(a, b).filter(confounding);
  return {
    ...(before && after?.change !== undefined && (after.parentId ?? before.id) === before.id
      ? { change: after.change }
      : {}),
    dimensions,
    others: circumstancesOf(a, b),
    apart,
    together: before && after ? Math.max(1, dimensions.length) + apart.length : Math.max(1, apart.length),
  };
}

function changedDimensions(before: Revision, after: Revision): StepChanges['dimensions'] {
  const of = (key: 'dimensionsM' | 'dimensionsM2', unit: 'm' | 'm2') => {
    const [was, is] = [before[key] ?? {}, after[key] ?? {}];
    return [...new Set([...Object.keys(was), ...Object.keys(is)])]
      .filter((name) => was[name] !== is[name])
      .map((name) => ({
        name,
        unit,
        ...(was[name] === undefined ? {} : { from: was[name] }),
        ...(is[name] === undefined ? {} : { to: is[name] }),
      }));
  };
  return [...of('dimensionsM', 'm'), ...of('dimensionsM2', 'm2')];
}
