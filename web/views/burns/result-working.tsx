/** How a result came about, in full: formula, values, steps, source, what makes it uncertain, what was taken for granted. */
import type { VNode } from 'preact';
import type { BudgetEntry, ValueResult } from '../../../shared/contract/results.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { number, percent } from '../../language/figures.ts';
import { plainFigure } from '../kit/result-words.ts';

/** Inputs that bring less than this share of the variance are not worth a line. */
const smallestShare = 0.005;

export function ResultWorking({ result }: { result: ValueResult }): VNode {
  const words = translate().burns.results;
  return (
    <div class="working">
      <dl>
        <dt>{words.formula}</dt>
        <dd class="formula">{result.working.formula}</dd>
        <Figures title={words.inputs} rows={result.inputs} />
        <Figures title={words.steps} rows={result.working.steps} />
        <dt>{words.source}</dt>
        <dd>{result.working.source}</dd>
        {result.budget && result.budget.length > 0 && <Budget entries={result.budget} unit={result.unit} />}
        {result.defaults.length > 0 && (
          <>
            <dt>{words.defaults}</dt>
            <dd>
              <ul>
                {result.defaults.map((message) => (
                  <li key={message.code}>{translateResult().defaults(message)}</li>
                ))}
              </ul>
            </dd>
          </>
        )}
      </dl>
      {result.remarks.map((message) => (
        <p class="remark" key={message.code}>
          {translateResult().remarks(message)}
        </p>
      ))}
    </div>
  );
}

function Figures({
  title,
  rows,
}: {
  title: string;
  rows: readonly { name: string; value: number; unit: string }[];
}): VNode | null {
  if (rows.length === 0) return null;
  return (
    <>
      <dt>{title}</dt>
      <dd>
        <table class="figures">
          <tbody>
            {rows.map(({ name, value, unit }) => (
              <tr key={name}>
                <th scope="row">{translateResult().inputName(name)}</th>
                <td>
                  {plainFigure(value)} {unit === '1' ? '' : unit}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </dd>
    </>
  );
}

/** Two figures that count: a contribution is an estimate of an estimate. */
function contributionText(contribution: number, unit: string): string {
  const shown = unit === '1' ? contribution * 100 : contribution;
  const decimals = shown === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(shown)));
  return `${number(shown, decimals)}\u00a0${unit === '1' ? '%' : unit === 'Cel' ? 'K' : unit}`;
}

function Budget({ entries, unit }: { entries: readonly BudgetEntry[]; unit: string }): VNode {
  const words = translate().burns.results;
  const total = entries.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  const shares = entries
    .map((entry) => ({ ...entry, share: total > 0 ? entry.contribution ** 2 / total : 0 }))
    .filter(({ share }) => share >= smallestShare);
  return (
    <>
      <dt>{words.budget}</dt>
      <dd>
        <table class="figures budget">
          <tbody>
            {shares.map(({ input, contribution, share, sharedId }) => (
              <tr key={`${input} ${sharedId ?? ''}`}>
                <th scope="row">{translateResult().inputName(input)}</th>
                <td>±&nbsp;{contributionText(contribution, unit)}</td>
                <td class="share">
                  <span class="share-bar" style={{ inlineSize: `${Math.max(1, share * 100)}%` }} aria-hidden="true" />
                  <span class="share-text">{percent(share, 0)}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </dd>
    </>
  );
}
