/**
 * The complete working of a result: the calculation to the number that is shown, formula, source, uncertainty budget,
 * defaults.
 */
import type { ComponentChildren, VNode } from 'preact';
import type { BudgetEntry, ValueResult } from '../../../shared/contract/results.ts';
import { differenceUnit, withUnit } from '../../../shared/language/unit-symbols.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { number, percent } from '../../language/figures.ts';
import { figure, plainFigure } from '../kit/result-words.ts';
import { entryOf } from './entry-of.ts';
import { type WorkedFigure, workedLines } from './worked-lines.ts';

/** Inputs with less than this share of the variance are not listed. */
const smallestShare = 0.005;

interface Context {
  readonly burnId: string;
  readonly onPickMark: (markId: string) => void;
}

export function ResultWorking({ result, context }: { result: ValueResult; context: Context }): VNode {
  const words = translate().burns.results;
  const lines = workedLines(result);
  const shown = figure(result.value, result.unit, result.id);
  const inLines = new Set(lines.flatMap(({ left, right }) => [left.name, right.name]));
  const unseen = (rows: readonly WorkedFigure[]) =>
    rows.filter(
      ({ name, value }) =>
        !inLines.has(name) &&
        !lines.some(({ total }) => total.value === value) &&
        (lines.length === 0 || name !== 'batches'),
    );
  return (
    <div class="working">
      {lines.length > 0 && (
        <ol class="worked">
          {lines.map(({ left, sign, right, total }, index) => (
            <li key={index}>
              <Operand figure={left} context={context} /> <span class="sign">{sign === '/' ? '÷' : sign}</span>{' '}
              <Operand figure={right} context={context} /> <span class="sign">=</span>{' '}
              {index < lines.length - 1 ? (
                figureText(total)
              ) : (
                <>
                  {!shown.endsWith(`\u00a0${total.unit}`) && total.unit !== '1' && `${figureText(total)} = `}
                  <b>{shown}</b>
                </>
              )}
            </li>
          ))}
        </ol>
      )}
      <dl>
        <Figures title={words.inputs} rows={unseen(result.inputs)} context={context} />
        <Figures title={words.steps} rows={unseen(result.working.steps)} context={context} />
        {result.budget && result.budget.length > 0 && (
          <Budget entries={result.budget} unit={result.unit} context={context} />
        )}
        <dt>{words.formula}</dt>
        <dd class="formula">{translateResult().workingText(result.working.formula)}</dd>
        <dt>{words.source}</dt>
        <dd>{translateResult().workingText(result.working.source)}</dd>
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

/** An entry by its name and number; the total of an earlier line by its number alone. */
function Operand({ figure: operand, context }: { figure: WorkedFigure; context: Context }): VNode {
  if (operand.name === undefined) return <span class="operand">{figureText(operand)}</span>;
  return (
    <span class="operand">
      <span class="operand-name">
        <ToEntry name={operand.name} context={context}>
          {translateResult().inputName(operand.name)}
        </ToEntry>
      </span>
      {figureText(operand)}
    </span>
  );
}

/** With the digits used by the next line; times in minutes. */
function figureText({ value, unit }: WorkedFigure): string {
  if (unit === 's') return `${number(value / 60, 1)}\u00a0min`;
  return withUnit(plainFigure(value), unit);
}

/** A link to where a number was entered. */
function ToEntry({
  name,
  sharedId,
  context: { burnId, onPickMark },
  children,
}: {
  name: string;
  sharedId?: string | undefined;
  context: Context;
  children: ComponentChildren;
}): VNode {
  const entry = entryOf(name, burnId, sharedId);
  if (!entry) return <>{children}</>;
  if ('screen' in entry) return <a href={routeHash(entry.screen)}>{children}</a>;
  const { mark } = entry;
  const show = () =>
    mark === undefined ? document.querySelector('.log')?.scrollIntoView({ block: 'start' }) : onPickMark(mark);
  return (
    <button type="button" class="plain" onClick={show}>
      {children}
    </button>
  );
}

function Figures({
  title,
  rows,
  context,
}: {
  title: string;
  rows: readonly WorkedFigure[];
  context: Context;
}): VNode | null {
  if (rows.length === 0) return null;
  return (
    <>
      <dt>{title}</dt>
      <dd>
        <table class="figures">
          <tbody>
            {rows.map(({ name = '', value, unit }) => (
              <tr key={name}>
                <th scope="row">
                  <ToEntry name={name} context={context}>
                    {translateResult().inputName(name)}
                  </ToEntry>
                </th>
                <td>{withUnit(plainFigure(value), unit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </dd>
    </>
  );
}

/** Two significant digits: a contribution is an estimate of an estimate. */
function contributionText(contribution: number, unit: string): string {
  const shown = unit === '1' ? contribution * 100 : contribution;
  const decimals = shown === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(shown)));
  return withUnit(number(shown, decimals), unit === '1' ? '%' : differenceUnit(unit));
}

/** By share of the variance, the largest first, each share a bar. */
function Budget({
  entries,
  unit,
  context,
}: {
  entries: readonly BudgetEntry[];
  unit: string;
  context: Context;
}): VNode {
  const words = translate().burns.results;
  const total = entries.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  const shares = entries
    .map((entry) => ({ ...entry, share: total > 0 ? entry.contribution ** 2 / total : 0 }))
    .filter(({ share }) => share >= smallestShare);
  return (
    <>
      <dt>{words.budget}</dt>
      <dd>
        <ul class="budget">
          {shares.map(({ input, contribution, share, sharing, sharedId }) => (
            <li key={`${input} ${sharedId ?? ''}`}>
              <span>
                <ToEntry name={input} sharedId={sharing === 'mark' ? sharedId : undefined} context={context}>
                  {translateResult().inputName(input)}
                </ToEntry>
              </span>{' '}
              <span>±&nbsp;{contributionText(contribution, unit)}</span> <b class="share-text">{percent(share, 0)}</b>
              <span class="share-bar" style={{ inlineSize: `${Math.max(0.5, share * 100)}%` }} aria-hidden="true" />
            </li>
          ))}
        </ul>
      </dd>
    </>
  );
}
