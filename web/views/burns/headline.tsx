/**
 * The results for which a burn was made, in large type; their space is reserved before they arrive, so that nothing
 * below them moves.
 */
import type { VNode } from 'preact';
import type { Burn } from '../../../shared/contract/burns.ts';
import type { Analysis, ResultId } from '../../../shared/contract/results.ts';
import { figure, intervalText, resultName } from '../kit/result-words.ts';
import { ContradictionMarks } from './contradictions.tsx';

const SHOWN = 4;
const usual: readonly ResultId[] = ['dryWoodPerBatch', 'timeToTarget', 'thermalEfficiency', 'meanUsefulPower'];

/** The results for which a cooling run is made. */
export const COOLING_RESULTS: readonly ResultId[] = ['lossCoefficient', 'coolingTimeConstant'];

/** The purpose of a burn. */
export type Aim = Pick<Burn, 'purpose' | 'primaryResult'>;

/** The primary result first. */
export function headlineIds({ purpose, primaryResult }: Aim): readonly ResultId[] {
  return purpose === 'cooling' ? COOLING_RESULTS : [...new Set([primaryResult, ...usual])].slice(0, SHOWN);
}

export function Headline({ analysis, aim }: { analysis: Analysis | undefined; aim: Aim }): VNode {
  return (
    <dl class="headline">
      {headlineIds(aim).map((id) => {
        const result = analysis?.results.find((each) => each.id === id);
        const known = result && 'value' in result ? result : undefined;
        return (
          <div key={id}>
            <dt>{resultName(id)}</dt>
            <dd>
              <b>
                {known ? figure(known.value, known.unit, id) : analysis ? '–' : '\u00a0'}{' '}
                {known && analysis && <ContradictionMarks analysis={analysis} id={id} />}
              </b>
              <span class="quiet">{(known && intervalText(known)) ?? '\u00a0'}</span>
            </dd>
          </div>
        );
      })}
    </dl>
  );
}
