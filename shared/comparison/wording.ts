/** The sentences about a comparison of two revisions, with the codes and parameters they are made from. */
import type {
  Comparison,
  Difference,
  MissingDifference,
  Narrowing,
  Plan,
  Translator,
  Verdict,
} from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import { type ComparisonCode, comparisonSentence } from '../language/comparison/comparison.ts';
import type { Language } from '../language/language.ts';
import { type ComparedResult, type MissingComparison, scaleOf, sharesOf } from './compare-result.ts';
import type { Narrowed } from './narrowing.ts';
import { daysAsked, daysFor, isHiddenByShared, largestDoubt, largestSharedDoubt } from './planning.ts';
import type { PrimaryChoice } from './primary-choice.ts';
import type { ComparingScale } from './result-scales.ts';

/** Creates the functions that write a comparison in the sentences of one language. */
export function createWording(language: Language, names: { a: string; b: string }) {
  const { translate, saying } = createTranslator(language, names);
  const coded = (code: ComparisonCode, params: Message['params'] = {}) => saying({ code, params });

  /** The figures in every sentence about a difference: those of the deciding interval. */
  function figuresIn(result: ComparedResult, { relative, difference } = result.figures): Message['params'] {
    const { scale, unit, deciding } = result;
    const limits = scale.scale === 'ratio' ? deciding.relativeInterval : deciding.interval;
    return {
      ...changeIn(result.id, scale.scale, unit, scale.scale === 'ratio' ? relative : difference),
      ...(limits ? { low: limits[0], high: limits[1] } : {}),
      confidence: deciding.confidence,
      everyLook: deciding.everyLook ? 1 : 0,
    };
  }

  function missingDifference(result: MissingComparison, kind: 'verdict' | 'seen'): MissingDifference {
    const { levels, id, unit = '1', missing } = result;
    const { scale } = scaleOf(id);
    const change = levels && changeIn(id, scale, unit, scale === 'ratio' ? levels.relative : levels.difference);
    const message = {
      code: `${kind}/${change ? 'figures' : 'missing'}` satisfies ComparisonCode,
      params: { first: 'a', second: 'b', result: id, ...change },
    };
    // The message of the reason stays separate; only the sentences are joined.
    const sentence = translate({ ...message, params: { ...message.params, why: translate(missing) } });
    return { ...result, message, sentence };
  }

  function stated(result: ComparedResult, { message, sentence }: Translator): Difference {
    const { statistics, figures, raw, scale, days: _days, ...rest } = result;
    return {
      ...rest,
      ...figures,
      message,
      sentence,
      scale: scale.scale,
      betterWhen: scale.betterWhen,
      shares: statistics ? sharesOf(statistics) : [],
      ...(statistics ? { standardError: statistics.standardError } : {}),
      ...(statistics && statistics.degreesOfFreedom !== Infinity
        ? { degreesOfFreedom: statistics.degreesOfFreedom }
        : {}),
      ...(raw ? { raw } : {}),
    };
  }

  function primary(result: ComparedResult | MissingComparison): Difference | MissingDifference {
    if ('missing' in result) return missingDifference(result, 'verdict');
    return stated(result, coded(`verdict/${decidedWord(result)}`, figuresIn(result)));
  }

  /** A result other than the primary one is never "better" or "worse": it has an interval, and may stand out. */
  function other(
    result: ComparedResult | MissingComparison,
    standsOut: Difference['standsOut'],
  ): Difference | MissingDifference {
    if ('missing' in result) return missingDifference(result, 'seen');
    const code = standsOut?.holds ? 'seen/standsOut' : result.deciding.interval ? 'seen/interval' : 'seen/noLimits';
    const shared = standsOut ? { among: standsOut.among, sharedConfidence: standsOut.confidence } : {};
    const entry = stated(result, coded(code, { ...figuresIn(result), ...shared }));
    return { ...entry, verdict: 'cannotTell', ...(standsOut ? { standsOut } : {}) };
  }

  /** Writes the verdict together with what weakens it. */
  function verdict(entry: Difference | MissingDifference, { when }: PrimaryChoice, result: ResultId): string {
    const late = when === 'after' ? [{ code: 'chosen/after', params: { result } }] : [];
    const lots = 'remarks' in entry ? entry.remarks.filter(({ code }) => code === 'remark/noLotShared') : [];
    return [entry.sentence, ...[...late, ...lots].map(translate)].join(' ');
  }

  const chosen = (choice: PrimaryChoice, result: ResultId): Comparison['chosen'] => ({
    ...choice,
    ...coded(`chosen/${choice.when}`, { result }),
  });

  /** Writes which look this is, and what stopping now would mean. */
  function stopping({ look, verdict: reached, scale, deciding }: ComparedResult, steps: number): Translator {
    const decided = reached !== 'cannotTell' || (scale.betterWhen === 'neither' && leavesOutZero(deciding.interval));
    const { kind, days, plannedDays } = look;
    return coded(`look/${kind}`, {
      first: 'a',
      second: 'b',
      daysA: days.a,
      daysB: days.b,
      steps,
      decided: decided ? 1 : 0,
      ...(plannedDays === undefined
        ? {}
        : {
            planned: plannedDays,
            moreA: Math.max(0, plannedDays - days.a),
            moreB: Math.max(0, plannedDays - days.b),
          }),
    });
  }

  function plan(result: ComparedResult, worth: number, steps: number): Plan {
    const asked = daysAsked(result, worth, steps);
    const further = asked && daysFor(asked);
    // Where the shared errors alone hide the difference, they have to be reduced, whatever the scatter.
    const doubt = asked && isHiddenByShared(asked) ? largestSharedDoubt(result) : largestDoubt(result);
    const messages: { code: ComparisonCode; params: Message['params'] }[] = [];
    if (further) {
      const { low, likely, high } = further;
      if (low === undefined) {
        const code = !doubt || doubt.source === 'scatter' ? 'plan/noNumberForScatter' : 'plan/noNumber';
        messages.push({ code, params: { worth, input: doubt?.source ?? '' } });
      } else if (likely === undefined || high === undefined) {
        messages.push({ code: 'plan/furtherDaysOpen', params: { worth, low } });
      } else if (high === 0) messages.push({ code: 'plan/enough', params: { worth } });
      else if (likely === 0) messages.push({ code: 'plan/perhapsEnough', params: { worth, high } });
      else messages.push({ code: 'plan/furtherDays', params: { worth, low, likely, high } });
    }
    if (doubt?.source === 'scatter') messages.push({ code: 'plan/improveScatter', params: { share: doubt.share } });
    else if (doubt) messages.push({ code: 'plan/improveInput', params: { input: doubt.source, share: doubt.share } });
    return {
      worthKnowing: worth,
      sentences: messages.map(translate),
      messages,
      ...(further ? { furtherDays: further } : {}),
      ...(doubt ? { improveFirst: doubt.source } : {}),
    };
  }

  function narrowing(
    { id, scale, unit, days }: ComparedResult,
    { kind, figures, share, confidence }: Narrowed,
  ): Narrowing {
    const { interval95: interval, relativeInterval95: relativeInterval } = figures;
    const [low, high] = scale.scale === 'ratio' ? relativeInterval : interval;
    const change = changeIn(id, scale.scale, unit, scale.scale === 'ratio' ? figures.relative : figures.difference);
    const side = days.a.length < days.b.length ? 'a' : 'b';
    return {
      kind,
      interval,
      relativeInterval,
      share,
      ...coded(`narrow/${kind}`, { ...change, low, high, share, side, confidence }),
    };
  }

  return {
    translate: translate,
    saying,
    primary,
    other,
    verdict,
    chosen,
    stopping,
    plan,
    narrowing,
    ruleChanged: (former: Verdict) => ({ former, ...coded('rule/changed', { former }) }),
    otherResults: (among: number, steps: number) =>
      coded('seen/shared', { among, confidence: 1 - 0.05 / among / steps }),
  };
}

/** Creates sentences with the names of the two sides; the message itself contains a and b. */
export function createTranslator(language: Language, names: { a: string; b: string }) {
  const translate = ({ code, params }: Message): string => {
    const spoken = { ...params };
    for (const key of ['side', 'first', 'second']) {
      if (spoken[key] === 'a' || spoken[key] === 'b') spoken[key] = names[spoken[key]];
    }
    return comparisonSentence(language, { code, params: spoken });
  };
  const saying = (message: Message): Translator => ({ message, sentence: translate(message) });
  return { translate: translate, saying };
}

/** The parameters of a sentence about a change: result, scale, and sides. */
export function changeIn(result: ResultId, scale: ComparingScale, unit: string, change: number): Message['params'] {
  return { first: 'a', second: 'b', result, kind: changeKind(scale, unit), change };
}

/** better, worse, differs (where neither is better), cannotTell, or noLimits while no interval holds at every look. */
export function decidedWord({ verdict, scale, deciding }: Pick<ComparedResult, 'verdict' | 'scale' | 'deciding'>) {
  if (verdict !== 'cannotTell') return verdict;
  if (deciding.interval === undefined) return 'noLimits';
  return scale.betterWhen === 'neither' && leavesOutZero(deciding.interval) ? 'differs' : verdict;
}

function leavesOutZero(interval: readonly [number, number] | undefined): boolean {
  return interval !== undefined && interval[0] * interval[1] > 0;
}

function changeKind(scale: ComparingScale, unit: string): string {
  if (scale === 'ratio') return 'ratio';
  if (unit === '1') return 'fraction';
  return unit === 's' ? 'time' : 'temperature';
}
