/** Results of a burn: one line each, unfolding into how it was worked out. */
import type { VNode } from 'preact';
import { isContradiction } from '../../../shared/analysis/messages/contradiction-codes.ts';
import type { MethodSet } from '../../../shared/contract/burn-record.ts';
import type { Analysis, MissingResult, ValueResult } from '../../../shared/contract/results.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { SelectField } from '../forms/field.tsx';
import { Folded } from '../kit/folded.tsx';
import { figure, intervalText, resultName } from '../kit/result-words.ts';
import { ContradictionMarks, Contradictions } from './contradictions.tsx';
import { ResultWorking } from './result-working.tsx';

/** Of the width of the interval. */
const NEAR_END = 0.1;

export function Results({
  analysis,
  primary,
  method,
  onMethod,
}: {
  analysis: Analysis;
  primary: string;
  method: MethodSet;
  onMethod: (method: MethodSet) => void;
}): VNode {
  const words = translate().burns.results;
  const values = analysis.results.filter((result): result is ValueResult => 'value' in result);
  const missing = analysis.results.filter((result): result is MissingResult => 'missing' in result);
  const remarks = analysis.remarks.filter((remark) => !isContradiction(remark));
  const first = values.find(({ id }) => id === primary);
  const ordered = first ? [first, ...values.filter((result) => result !== first)] : values;
  return (
    <section class="results" aria-labelledby="results-title">
      <header class="results-head">
        <h2 id="results-title">{translate().burns.burn.results}</h2>
        <SelectField
          label={translate().burns.burn.method}
          value={method}
          options={(Object.keys(translateResult().methods) as MethodSet[]).map((each) => [
            each,
            translateResult().methods[each],
          ])}
          onChange={onMethod}
        />
      </header>
      <Contradictions analysis={analysis} />
      <div class="result-list">
        {ordered.map((result) => (
          <ResultLine key={result.id} analysis={analysis} result={result} isPrimary={result.id === primary} />
        ))}
      </div>
      {missing.length > 0 && (
        <>
          <h3 class="missing-title">{words.missingTitle}</h3>
          <dl class="missing-list">
            {missing.map((result) => (
              <div key={result.id} class={result.id === primary ? 'primary' : ''}>
                <dt>{resultName(result.id)}</dt>
                <dd>{translateResult().missing(result.missing)}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
      {remarks.length > 0 && (
        <ul class="remarks">
          {remarks.map((remark) => (
            <li key={remark.code}>{translateResult().remarks(remark)}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function ResultLine({
  analysis,
  result,
  isPrimary,
}: {
  analysis: Analysis;
  result: ValueResult;
  isPrimary: boolean;
}): VNode {
  const words = translate().burns.results;
  const end = endOfInterval(result);
  return (
    <Folded
      class={isPrimary ? 'result primary' : 'result'}
      summary={
        <>
          <span class="result-name">{resultName(result.id)}</span>
          <span class="result-value">
            <ContradictionMarks analysis={analysis} id={result.id} />
            {figure(result.value, result.unit, result.id)}
          </span>
          <span class="result-interval quiet">{intervalText(result)}</span>
          <span class="result-window quiet">{translateResult().windows[result.window]}</span>
          {end && <span class="result-end quiet">{end === 'low' ? words.atLowEnd : words.atHighEnd}</span>}
        </>
      }
    >
      {() => <ResultWorking result={result} />}
    </Folded>
  );
}

/** Where a value lies so near an end of its own interval that it would look like a mistake; undefined elsewhere. */
function endOfInterval({ value, interval95 }: ValueResult): 'low' | 'high' | undefined {
  if (!interval95) return undefined;
  const [low, high] = interval95;
  const share = (value - low) / (high - low);
  if (share < NEAR_END) return 'low';
  return share > 1 - NEAR_END ? 'high' : undefined;
}
