/**
 * One difference in full: its sentence, every burn's value, the raw numbers next to adjusted ones, the parts of its
 * uncertainty.
 */

import type { VNode } from 'preact';
import type { Comparison, Difference } from '../../../../shared/contract/comparison.ts';
import { routeHash } from '../../../addresses/router.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translate, translateCompare, translateRemark } from '../../../language/catalogue.ts';
import { number, percent } from '../../../language/figures.ts';
import { MarkedUpText } from '../../kit/marked-up-text.tsx';
import { figure, resultName } from '../../kit/result-words.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import { DotSample } from '../parts/burn-dot.tsx';
import { changeText } from '../parts/difference-words.ts';
import { writtenText } from '../parts/sentence.tsx';
import type { Sides } from '../parts/sides.ts';
import { sourceName } from '../parts/uncertainty.ts';

/** Parts of the uncertainty below this share are not listed. */
const smallestShare = 0.005;

export function DifferenceDetail({ entry, sides }: { entry: Comparison['differences'][number]; sides: Sides }): VNode {
  const compared = 'verdict' in entry ? entry : undefined;
  return (
    <div class="difference-detail">
      <p>
        <MarkedUpText text={sentenceOf(entry, sides)} />
      </p>
      {compared?.raw && <RawFigures difference={compared} />}
      {compared?.remarks.map((message) => (
        <p class="remark" key={message.code}>
          {translateRemark(message)}
        </p>
      ))}
      {entry.points.length > 0 && <EveryBurn entry={entry} sides={sides} />}
      {compared && <Statistics difference={compared} sides={sides} />}
    </div>
  );
}

function sentenceOf(entry: Comparison['differences'][number], sides: Sides): string {
  const names = { a: sides.a.name, b: sides.b.name };
  const why = 'missing' in entry ? { why: writtenText(entry.missing, names) } : {};
  return writtenText(entry.message, names, { strong: 1, ...why });
}

/** The difference before any adjustment to common conditions. */
export function RawFigures({ difference: { raw, ...difference } }: { difference: Difference }): VNode | null {
  if (!raw) return null;
  const { id, unit } = difference;
  return (
    <p class="quiet raw">
      {translateCompare().raw({
        a: figure(raw.a, unit, id),
        b: figure(raw.b, unit, id),
        change: changeText({
          ...difference,
          ...raw,
          deciding: { interval: raw.interval95, relativeInterval: raw.relativeInterval95 },
        }),
      })}
    </p>
  );
}

function EveryBurn({ entry, sides }: { entry: Comparison['differences'][number]; sides: Sides }): VNode {
  const words = translateCompare().everyBurn;
  const unit = entry.unit ?? '1';
  const adjusted = entry.points.some((point) => point.adjusted !== undefined);
  return (
    <WideTable label={words.label({ result: resultName(entry.id) })}>
      <table class="every-burn">
        <thead>
          <tr>
            <th scope="col">{words.burn}</th>
            <th scope="col">{words.day}</th>
            <th scope="col">{words.operator}</th>
            <th scope="col">{words.asBurnt}</th>
            {adjusted && <th scope="col">{words.common}</th>}
          </tr>
        </thead>
        <tbody>
          {entry.points.map(({ burnId, side, value, adjusted: adjustedValue }) => {
            const burn = sides[side].burns.find(({ id }) => id === burnId);
            return (
              <tr key={burnId}>
                <th scope="row">
                  <DotSample side={side} /> <a href={routeHash({ at: 'burn', id: burnId })}>{burn?.title ?? burnId}</a>
                </th>
                <td>{burn && burnDay(burn)}</td>
                <td>{burn?.operator}</td>
                <td>{figure(value, unit, entry.id)}</td>
                {adjusted && <td>{adjustedValue !== undefined && figure(adjustedValue, unit, entry.id)}</td>}
              </tr>
            );
          })}
        </tbody>
      </table>
    </WideTable>
  );
}

function Statistics({ difference, sides }: { difference: Difference; sides: Sides }): VNode | null {
  const words = translateCompare().statistics;
  const { id, unit, shares, standardError, degreesOfFreedom, scale, counts, look } = difference;
  const worth = shares.filter(({ share }) => share >= smallestShare);
  if (standardError === undefined) return null;
  return (
    <div class="statistics">
      <p class="quiet">
        {words.line({
          a: counts.a,
          b: counts.b,
          daysA: look.days.a,
          daysB: look.days.b,
          error: scale === 'ratio' ? percent(standardError) : figure(standardError, unit === 'Cel' ? 'K' : unit, id),
          freedom: degreesOfFreedom === undefined ? words.infinite : number(degreesOfFreedom, 1),
        })}
      </p>
      <h3>{words.doubt}</h3>
      <table class="figures budget">
        <tbody>
          {worth.map(({ source, share }, index) => (
            <tr key={`${source} ${index}`}>
              <th scope="row">{sourceName(source, sides)}</th>
              <td class="share">
                <span class="share-bar" style={{ inlineSize: `${Math.max(1, share * 100)}%` }} aria-hidden="true" />
                <span class="share-text">{translate().burns.results.budgetOf({ share: percent(share, 0) })}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
