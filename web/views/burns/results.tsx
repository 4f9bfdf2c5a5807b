/** The results of a burn: one line each, which unfolds into its working. */
import type { VNode } from 'preact';
import { isContradiction } from '../../../shared/analysis/messages/contradiction-codes.ts';
import type { MethodSet } from '../../../shared/contract/burn-record.ts';
import type { Analysis, MissingResult, ValueResult } from '../../../shared/contract/results.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { SelectField } from '../forms/field.tsx';
import { Folded } from '../kit/folded.tsx';
import { figure, intervalText, resultName } from '../kit/result-words.ts';
import { ContradictionMarks, Contradictions } from './contradictions.tsx';
import { type Aim, headlineIds } from './headline.tsx';
import { ResultWorking } from './result-working.tsx';

/** As a share of the width of the interval. */
const NEAR_END = 0.1;

export function Results({
  analysis,
  aim,
  method,
  onMethod,
  onPickMark,
}: {
  analysis: Analysis;
  aim: Aim;
  method: MethodSet;
  onMethod: (method: MethodSet) => void;
  onPickMark: (markId: string) => void;
}): VNode {
  const words = translate().burns.results;
  const values = analysis.results.filter((result): result is ValueResult => 'value' in result);
  const missing = analysis.results.filter((result): result is MissingResult => 'missing' in result);
  const remarks = analysis.remarks.filter((remark) => !isContradiction(remark));
  const headline = headlineIds(aim);
  const others = values.filter(({ id }) => !headline.includes(id));
  const lineOf = (result: ValueResult) => (
    <ResultLine
      key={result.id}
      analysis={analysis}
      result={result}
      isPrimary={result.id === headline[0]}
      onPickMark={onPickMark}
    />
  );
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
        {values
          .filter(({ id }) => headline.includes(id))
          .sort((a, b) => headline.indexOf(a.id) - headline.indexOf(b.id))
          .map(lineOf)}
        {others.length > 0 && (
          <details class="other-results">
            <summary>{words.others({ count: others.length })}</summary>
            {others.map(lineOf)}
          </details>
        )}
      </div>
      {missing.length > 0 && (
        <details class="unknown-results">
          <summary>{words.unknownResults({ count: missing.length })}</summary>
          <dl class="missing-list">
            {missing.map((result) => (
              <div key={result.id} class={result.id === headline[0] ? 'primary' : ''}>
                <dt>{resultName(result.id)}</dt>
                <dd>{translateResult().missing(result.missing)}</dd>
              </div>
            ))}
          </dl>
        </details>
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
  onPickMark,
}: {
  analysis: Analysis;
  result: ValueResult;
  isPrimary: boolean;
  onPickMark: (markId: string) => void;
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
      {() => <ResultWorking result={result} context={{ burnId: analysis.burnId, onPickMark }} />}
    </Folded>
  );
}

/** The end of the interval to which a value is so near that it would look like a mistake; undefined elsewhere. */
function endOfInterval({ value, interval95 }: ValueResult): 'low' | 'high' | undefined {
  if (!interval95) return undefined;
  const [low, high] = interval95;
  const share = (value - low) / (high - low);
  if (share < NEAR_END) return 'low';
  return share > 1 - NEAR_END ? 'high' : undefined;
}
