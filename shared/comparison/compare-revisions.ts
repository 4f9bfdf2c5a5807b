/** Revision against revision: how much they differ, how sure that is, and what else was different. */
import type { BlockKind, Comparison } from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import { comparisonSentence } from '../language/comparison.ts';
import type { Language } from '../language/language.ts';
import { adjustmentOf, commonConditions, unadjusted } from './adjustment.ts';
import { blockOf } from './blocks.ts';
import { selectComparable } from './burn-selection.ts';
import { circumstancesOf } from './circumstances.ts';
import { compareResult, type Entry } from './compare-result.ts';
import type { ComparedBurn, Side } from './compared-burn.ts';
import { conditionErrorsOf, conditionsOf } from './conditions.ts';
import { comparedResults } from './result-scales.ts';
import { createWording } from './wording.ts';

export interface ComparisonOptions {
  /** Chosen before the first burn; carries the verdict. The one named in the burns when left out. */
  primary?: ResultId;
  blocks?: BlockKind;
  /** Relative difference the planning is made for. */
  worthKnowing?: number;
  /** Names of the revisions as the reader knows them. */
  names?: { a: string; b: string };
  language?: Language;
  /** False leaves known differences in load, start temperature and air unadjusted. */
  adjust?: boolean;
}

const DEFAULT_WORTH_KNOWING = 0.1;

/**
 * Compares burns of one revision (a) with burns of another (b).
 * @throws RangeError when a burn is given twice: it would vouch for itself.
 */
export function compareRevisions(
  a: readonly ComparedBurn[],
  b: readonly ComparedBurn[],
  options: ComparisonOptions = {},
): Comparison {
  requireOnce([...a, ...b]);
  const wording = createWording(options.language ?? 'en', options.names ?? namesOf(a, b, options.language ?? 'en'));
  const blocks = options.blocks ?? 'none';
  const selected = selectComparable(a, b);
  const entries = entriesOf(selected.a, selected.b, blocks, options.adjust ?? true);
  const primary = options.primary ?? a[0]?.burn.primaryResult ?? 'dryWoodPerBatch';
  const ids = [primary, ...comparedResults.filter((id) => id !== primary)];
  const results = ids.map((id) => compareResult(id, entries, blocks !== 'none'));
  const first = results[0]!;
  const differences = results
    .filter((result) => result === first || result.points.length > 0)
    .map((result) => wording.difference(result, result === first));
  return {
    primary,
    verdict: 'verdict' in first ? first.verdict : 'cannotTell',
    sentence: differences[0]!.sentence,
    blocks,
    burns: { a: selected.a.map(({ burn }) => burn.id), b: selected.b.map(({ burn }) => burn.id) },
    differences,
    ...manyResults(differences, wording.say),
    setAside: selected.setAside.map((aside) => ({ ...aside, sentence: wording.say(aside.reason) })),
    alsoDiffered: circumstancesOf(selected.a, selected.b).map((message) => ({
      message,
      sentence: wording.say(message),
    })),
    ...('missing' in first ? {} : { plan: wording.plan(first, options.worthKnowing ?? DEFAULT_WORTH_KNOWING) }),
  };
}

/** What looking at many results at once does to the meaning of 95 %. */
function manyResults(
  differences: Comparison['differences'],
  say: (message: Message) => string,
): { manyResults?: string } {
  const judged = differences.filter((entry) => 'verdict' in entry && entry.betterWhen !== 'neither').length;
  if (judged < 3) return {};
  const oneIn = Math.round(1 / (1 - 0.95 ** judged));
  return { manyResults: say({ code: 'seen/manyResults', params: { count: judged, oneIn } }) };
}

function requireOnce(burns: readonly ComparedBurn[]): void {
  const seen = new Set<string>();
  for (const { burn } of burns) {
    if (seen.has(burn.id)) throw new RangeError(`Burn ${burn.id} ("${burn.title}") is given twice`);
    seen.add(burn.id);
  }
}

function entriesOf(
  a: readonly ComparedBurn[],
  b: readonly ComparedBurn[],
  blocks: BlockKind,
  adjust: boolean,
): Entry[] {
  const sides: [Side, readonly ComparedBurn[]][] = [
    ['a', a],
    ['b', b],
  ];
  const entries = sides.flatMap(([side, group]) =>
    group.map((compared) => ({
      compared,
      side,
      block: blockOf(compared.burn, blocks),
      conditions: conditionsOf(compared),
      errors: conditionErrorsOf(compared),
    })),
  );
  const common = adjust ? commonConditions(entries.map(({ conditions }) => conditions)) : undefined;
  return entries.map(({ conditions, ...entry }) => ({
    ...entry,
    adjustment: (id) => (common ? adjustmentOf(id, conditions, common) : unadjusted),
  }));
}

/** "revision 1" and "revision 2" where each group is of one revision; else A and B. */
function namesOf(a: readonly ComparedBurn[], b: readonly ComparedBurn[], language: Language): { a: string; b: string } {
  const [labelA, labelB] = [a, b].map((group) => {
    const labels = new Set(group.map(({ burn }) => burn.revision?.label));
    return labels.size === 1 ? [...labels][0] : undefined;
  });
  if (labelA === undefined || labelB === undefined || labelA === labelB) return { a: 'A', b: 'B' };
  const name = (label: string) => comparisonSentence(language, { code: 'name/revision', params: { label } });
  return { a: name(labelA), b: name(labelB) };
}
