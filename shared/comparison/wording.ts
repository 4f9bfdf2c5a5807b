/** What comparing found, in words. */
import type { Difference, MissingDifference, Plan } from '../contract/comparison.ts';
import type { Message } from '../contract/results.ts';
import { type ComparisonCode, comparisonSentence } from '../language/comparison.ts';
import type { Language } from '../language/language.ts';
import { type ComparedResult, type LackingResult, sharesOf } from './compare-result.ts';
import { furtherBurns, largestDoubt } from './planning.ts';

/** Puts what was found into the sentences of one language. */
export function createWording(language: Language, names: { a: string; b: string }) {
  /** Sides in a message are named as the reader knows them. */
  const say = ({ code, params }: Message): string => {
    const spoken = { ...params };
    for (const key of ['side', 'first', 'second']) {
      if (spoken[key] === 'a' || spoken[key] === 'b') spoken[key] = names[spoken[key]];
    }
    return comparisonSentence(language, { code, params: spoken });
  };

  function difference(result: ComparedResult | LackingResult, isPrimary: boolean): Difference | MissingDifference {
    const kind = isPrimary ? 'verdict' : 'seen';
    if ('missing' in result) {
      const why = say(result.missing);
      return { ...result, sentence: say({ code: `${kind}/missing`, params: { result: result.id, why } }) };
    }
    const { statistics, figures, raw, scale, values: _values, ...rest } = result;
    const ratio = scale.scale === 'ratio';
    const [low, high] = ratio ? figures.relativeInterval95 : figures.interval95;
    const decided = result.verdict === 'cannotTell' && low * high > 0 ? 'differs' : result.verdict;
    const sentence = say({
      code: `${kind}/${decided}`,
      params: {
        ...names,
        result: result.id,
        kind: changeKind(scale.scale, result.unit),
        change: ratio ? figures.relative : figures.difference,
        low,
        high,
      },
    });
    return {
      ...rest,
      ...figures,
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

  function plan(result: ComparedResult, worth: number): Plan {
    const doubt = largestDoubt(result);
    const further = furtherBurns(result, worth);
    const messages: { code: ComparisonCode; params: Message['params'] }[] = [];
    if (further) {
      const { low, likely, high } = further;
      if (low === undefined) messages.push({ code: 'plan/noNumber', params: { worth, input: doubt?.source ?? '' } });
      else if (likely === undefined || high === undefined) {
        messages.push({ code: 'plan/furtherBurnsOpen', params: { worth, low } });
      } else if (high === 0) messages.push({ code: 'plan/enough', params: { worth } });
      else if (likely === 0) messages.push({ code: 'plan/perhapsEnough', params: { worth, high } });
      else messages.push({ code: 'plan/furtherBurns', params: { worth, low, likely, high } });
    }
    if (doubt?.source === 'scatter') messages.push({ code: 'plan/improveScatter', params: { share: doubt.share } });
    else if (doubt) messages.push({ code: 'plan/improveInput', params: { input: doubt.source, share: doubt.share } });
    return {
      worthKnowing: worth,
      sentences: messages.map(say),
      ...(further ? { furtherBurns: further } : {}),
      ...(doubt ? { improveFirst: doubt.source } : {}),
    };
  }

  return { say, difference, plan };
}

function changeKind(scale: string, unit: string): string {
  if (scale === 'ratio') return 'ratio';
  if (unit === '1') return 'fraction';
  return unit === 's' ? 'time' : 'temperature';
}
