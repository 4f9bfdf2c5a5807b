/** The sentences of a ladder, with the codes and parameters they are made from. */
import type { Ladder } from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import { comparisonSentence } from '../language/comparison/comparison.ts';
import type { Language } from '../language/language.ts';
import { meanFigures } from './compare-result.ts';
import { type FoundLadder, type Rung, rungLevel, type Step } from './ladder.ts';
import { changeIn, createTranslator, decidedWord } from './wording.ts';

export function createLadderWording(language: Language, primary: ResultId) {
  const nameOf = (rung: Rung) =>
    rung.revision
      ? comparisonSentence(language, { code: 'name/revision', params: { label: rung.revision.label } })
      : labelOf(rung);
  const plainly = createTranslator(language, { a: '', b: '' }).saying;

  function step(
    found: FoundLadder,
    { from, to, look, decision, verdict, missing, changes }: Step,
  ): Ladder['steps'][number] {
    const { unit, scale, rungs } = found;
    const { translate, saying } = createTranslator(language, { a: nameOf(rungs[from]!), b: nameOf(rungs[to]!) });
    const { apart, others, ...changed } = changes;
    const level = rungs[from]!.level!;
    const change = rungs[to]!.level! - level;
    const { difference, relative } = meanFigures(level, decision?.difference ?? change, [0, 0], scale);
    const figures = changeIn(primary, scale.scale, unit, scale.scale === 'ratio' ? relative : difference);
    const written = decision
      ? saying(decidedMessage(figures, { verdict, scale, deciding: decision.deciding }))
      : saying({ code: 'step/figures', params: figures });
    const why = missing
      ? { sentence: translate({ code: 'step/figures', params: { ...figures, why: translate(missing) } }) }
      : {};
    const remarks: Message[] = [
      ...(missing ? [missing] : []),
      ...(apart.includes('fuelLot') && decision ? [{ code: 'remark/noLotShared', params: {} }] : []),
      ...(changed.together > 1 ? [togetherMessage(changes)] : []),
    ];
    return {
      from,
      to,
      look,
      ...([difference, relative].every(Number.isFinite) ? { difference, relative } : {}),
      ...(decision ? { deciding: decision.deciding } : {}),
      verdict,
      changed: { ...changed, others: others.map(saying) },
      remarks: remarks.map(saying),
      ...written,
      ...why,
    };
  }

  function best({ best: found, rungs }: FoundLadder): Ladder['best'] {
    if (!found) return undefined;
    const names = found.mayBe.map((rung) => nameOf(rungs[rung]!)).join(', ');
    const code = found.mayBe.length === 1 ? 'best/one' : 'best/several';
    return { ...found, ...plainly({ code, params: { names, seen: nameOf(rungs[found.seen]!), of: rungs.length } }) };
  }

  function effects({ effects: found, unit, scale }: FoundLadder): Pick<Ladder, 'effects' | 'noEffects'> {
    if (found === undefined) return { effects: [] };
    if ('missing' in found) return { effects: [], noEffects: plainly(found.missing) };
    const back = (value: number) => (scale.scale === 'ratio' ? Math.expm1(value) : value);
    return {
      effects: found.effects.map(({ name, unit: of, per, effect, interval, confidence }) => {
        const [low, high] = [back(interval[0]), back(interval[1])];
        const params = { ...changeIn(primary, scale.scale, unit, back(effect)), low, high, name, per, of, confidence };
        const written = plainly({ code: 'effect/of', params });
        return { name, unit: of, per, effect: back(effect), interval: [low, high], confidence, ...written };
      }),
    };
  }

  function ladder(found: FoundLadder, aside: readonly { burnId: string; reason: Message }[]): Ladder {
    const { unit, scale, rungs, missing, scatter } = found;
    const foundBest = best(found);
    return {
      unit,
      scale: scale.scale,
      rungs: rungs.map((rung) => {
        const level = rungLevel(rung, scale);
        return {
          ...(rung.revision ? { revisionId: rung.revision.id } : {}),
          label: labelOf(rung),
          burns: rung.burns.length,
          days: rung.days.length,
          ...(level === undefined ? {} : { level }),
        };
      }),
      steps: found.steps.map((each) => step(found, each)),
      ...(missing ? { missing: plainly(missing) } : {}),
      ...(scatter
        ? {
            scatter: {
              standardDeviation: Math.sqrt(scatter.variance),
              degreesOfFreedom: scatter.degreesOfFreedom,
            },
          }
        : {}),
      ...(foundBest ? { best: foundBest } : {}),
      ...effects(found),
      setAside: aside.map(({ burnId, reason }) => ({ burnId, ...plainly(reason) })),
    };
  }

  return { ladder };
}

function decidedMessage(figures: Message['params'], decision: Parameters<typeof decidedWord>[0]): Message {
  const { deciding, scale } = decision;
  const limits = scale.scale === 'ratio' ? deciding.relativeInterval : deciding.interval;
  return {
    code: `step/${decidedWord(decision)}`,
    params: {
      ...figures,
      ...(limits ? { low: limits[0], high: limits[1] } : {}),
      confidence: deciding.confidence,
      everyLook: deciding.everyLook ? 1 : 0,
    },
  };
}

/** No number of burns separates the effects of two things that changed at once. */
function togetherMessage({ dimensions, apart, together }: Step['changes']): Message {
  return {
    code: 'step/together',
    params: { count: together, dimensions: dimensions.map(({ name }) => name).join(', '), apart: apart.join(',') },
  };
}

/** Returns the label of a rung: a letter for a group that is not exactly one revision. */
function labelOf({ revision, place: index }: Rung): string {
  return revision?.label ?? String.fromCharCode(65 + index);
}
