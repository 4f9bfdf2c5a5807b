/**
 * Compares two revisions: how much they differ, how certain that is, what else was different, and their steps on the
 * ladder of the stove.
 */
import type { PlannedDays } from '../contract/burn-record.ts';
import type { BlockKind, Comparison, Difference } from '../contract/comparison.ts';
import type { ResultId } from '../contract/results.ts';
import { comparisonSentence } from '../language/comparison/comparison.ts';
import type { Language } from '../language/language.ts';
import { adjustmentOf, commonConditions, unadjusted } from './adjustment.ts';
import { blockOf } from './blocks.ts';
import { selectComparable } from './burn-selection.ts';
import { circumstancesOf, nothingShared } from './circumstances.ts';
import {
  type ComparedResult,
  compareResult,
  type Entry,
  type MissingComparison,
  measuredValues,
  type Rules,
  scaleOf,
} from './compare-result.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { conditionErrorsOf, conditionsOf, isComplete, noErrors } from './conditions.ts';
import { dayOf } from './days.ts';
import { ladderOf } from './ladder.ts';
import { createLadderWording } from './ladder-wording.ts';
import { intendedDays, levelOf } from './looks.ts';
import { limitsOf } from './mean-difference.ts';
import { narrowingsOf } from './narrowing.ts';
import { previousVerdict } from './previous-verdict-rule.ts';
import { primaryChoice } from './primary-choice.ts';
import { comparedResults } from './result-scales.ts';
import { COMPARISON_RULE_VERSION } from './verdict-rule.ts';
import { createWording } from './wording.ts';

export interface ComparisonOptions {
  /** The result that decides the verdict, chosen before the first burn. When left out, the one named in the burns. */
  primary?: ResultId;
  blocks?: BlockKind;
  /** Relative difference that the plan of further days is to find. */
  worthKnowing?: number;
  /** Names of the revisions as shown to the reader. */
  names?: { a: string; b: string };
  language?: Language;
  /** With false, known differences in load, start temperature and air are not adjusted for. */
  adjust?: boolean;
  /** Burns of each further revision of the stove: with them the comparison is a step of a ladder. */
  others?: readonly (readonly ComparedBurn[])[];
  /** The planned number of days; takes precedence over that of the revisions. */
  plannedDays?: PlannedDays['days'];
}

const DEFAULT_WORTH_KNOWING = 0.1;

/**
 * Compares burns of one revision (a) with burns of another (b).
 * @throws RangeError when a burn is given twice.
 */
export function compareRevisions(
  a: readonly ComparedBurn[],
  b: readonly ComparedBurn[],
  options: ComparisonOptions = {},
): Comparison {
  const { language = 'en', blocks = 'none', adjust = true, others = [], plannedDays } = options;
  requireOnce([...a, ...b, ...others.flat()]);
  const wording = createWording(language, options.names ?? namesOf(a, b, language));
  const selected = selectComparable(
    a,
    b,
    others.filter((burns) => burns.length > 0),
  );
  const groups = [selected.a, selected.b, ...selected.others];
  const entries = entriesOf(groups, blocks, adjust);
  const primary = options.primary ?? a[0]?.burn.primaryResult ?? 'dryWoodPerBatch';
  const rules: Rules = {
    inBlocks: blocks !== 'none',
    intended: intendedDays(selected.a, selected.b, plannedDays),
    steps: stepsOf(primary, entries),
  };
  const [first, ...rest] = [primary, ...comparedResults.filter((id) => id !== primary)].map((id) =>
    compareResult(id, entries, rules),
  ) as [ComparedResult | MissingComparison, ...(ComparedResult | MissingComparison)[]];
  const otherResults = rest.filter(({ points }) => points.length > 0);
  if (nothingShared(selected.a, selected.b).includes('fuelLot') && !('missing' in first)) {
    first.remarks.push({ code: 'remark/noLotShared', params: {} });
  }
  const among = otherResults.filter((result) => 'statistics' in result).length;
  const chosen = primaryChoice(primary, [...selected.a, ...selected.b]);
  const differences = [
    wording.primary(first),
    ...otherResults.map((result) => wording.other(result, standsOut(result, among, rules))),
  ];
  const former = previousVerdict(measuredValues(primary, entries) ?? [], scaleOf(primary), rules.inBlocks);
  const verdict = 'verdict' in first ? first.verdict : 'cannotTell';
  const ladder = ladderOf({
    id: primary,
    unit: 'unit' in first ? (first.unit ?? '1') : '1',
    groups,
    entries,
    compared: first,
    plannedDays,
  });
  return {
    ruleVersion: COMPARISON_RULE_VERSION,
    primary,
    chosen: wording.chosen(chosen, primary),
    verdict,
    sentence: wording.verdict(differences[0]!, chosen, primary),
    ...('missing' in first ? {} : { stopping: wording.stopping(first, rules.steps) }),
    ...(rules.intended.kind === 'notSaid' && former !== verdict ? { ruleChanged: wording.ruleChanged(former) } : {}),
    blocks,
    burns: { a: selected.a.map(({ burn }) => burn.id), b: selected.b.map(({ burn }) => burn.id) },
    differences,
    ...(among > 0 ? { otherResults: wording.otherResults(among, rules.steps) } : {}),
    setAside: selected.setAside.map((aside) => ({ ...aside, sentence: wording.translate(aside.reason) })),
    alsoDiffered: circumstancesOf(selected.a, selected.b).map(wording.saying),
    ...('missing' in first
      ? {}
      : { plan: wording.plan(first, options.worthKnowing ?? DEFAULT_WORTH_KNOWING, rules.steps) }),
    narrowing:
      'missing' in first ? [] : narrowingsOf(first, entries, rules).map((each) => wording.narrowing(first, each)),
    ...(ladder ? { ladder: createLadderWording(language, primary).ladder(ladder, selected.othersAside) } : {}),
  };
}

/** Steps of the ladder: one less than the revisions that have the primary result. */
function stepsOf(primary: ResultId, entries: readonly Entry[]): number {
  const places = new Set((measuredValues(primary, entries) ?? []).map(({ place: index }) => index));
  return Math.max(1, places.size - 1);
}

/** Whether a result other than the primary one differs, with the share of wrong verdicts divided among all of them. */
function standsOut(
  result: ComparedResult | MissingComparison,
  among: number,
  { steps }: Rules,
): Difference['standsOut'] | undefined {
  if ('missing' in result || !result.statistics) return undefined;
  const level = levelOf(result.look, steps * among);
  const limits = limitsOf(result.statistics, level);
  return {
    among,
    confidence: 1 - level.outside,
    holds: limits !== undefined && (limits[0] > 0 || limits[1] < 0),
  };
}

function requireOnce(burns: readonly ComparedBurn[]): void {
  const seen = new Set<string>();
  for (const { burn } of burns) {
    if (seen.has(burn.id)) throw new RangeError(`Burn ${burn.id} ("${burn.title}") is given twice`);
    seen.add(burn.id);
  }
}

/**
 * Adjusts all burns to their common conditions; burns of a further revision with unknown conditions stay as measured.
 */
function entriesOf(groups: readonly (readonly ComparedBurn[])[], blocks: BlockKind, adjust: boolean): Entry[] {
  const entries = groups.flatMap((group, index) =>
    group.map((compared) => ({
      compared,
      place: index,
      day: dayOf(compared),
      block: blockOf(compared, blocks),
      conditions: conditionsOf(compared),
    })),
  );
  const counting = entries.filter(({ place: index, conditions }) => index < 2 || isComplete(conditions));
  const common = adjust ? commonConditions(counting.map(({ conditions }) => conditions)) : undefined;
  return entries.map(({ conditions, ...entry }) =>
    common && isComplete(conditions)
      ? {
          ...entry,
          adjustment: (id) => adjustmentOf(id, conditions, common),
          errors: conditionErrorsOf(entry.compared),
        }
      : { ...entry, adjustment: () => unadjusted, errors: noErrors },
  );
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
