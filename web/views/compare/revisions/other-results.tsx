/** The other results: one line each, which unfolds into every burn and the parts of the uncertainty. */
import type { VNode } from 'preact';
import type { Comparison, Difference } from '../../../../shared/contract/comparison.ts';
import { shareOf } from '../../../../shared/plot/scale.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number } from '../../../language/figures.ts';
import { figure, resultName } from '../../kit/result-words.ts';
import { BurnDot } from '../parts/burn-dot.tsx';
import { changeText, seenWord } from '../parts/difference-words.ts';
import { resultAxis } from '../parts/result-axis.ts';
import { Sentence } from '../parts/sentence.tsx';
import type { Sides } from '../parts/sides.ts';
import { DifferenceDetail } from './difference-detail.tsx';

type Entry = Comparison['differences'][number];

/** The results that a builder needs first. The rest repeat them in other units, or are for the specialist. */
const asked: readonly string[] = [
  'dryWoodPerBatch',
  'timeToTarget',
  'thermalEfficiency',
  'sensibleEfficiency',
  'meanUsefulPower',
  'evaporatedWater',
  'typicalUnattended',
  'longestUnattended',
];

/** Changes beyond this are drawn at the edge, so that one extreme result does not flatten all the others. */
const widestShown = 0.6;

export function OtherResults({ comparison, sides }: { comparison: Comparison; sides: Sides }): VNode | null {
  const words = translateCompare().seen;
  const others = comparison.differences.filter(({ id }) => id !== comparison.primary);
  const first = others.filter(({ id }) => asked.includes(id));
  const rest = others.filter(({ id }) => !asked.includes(id));
  const edge = edgeOf(first);
  if (others.length === 0) return null;
  const list = (entries: readonly Entry[]) => (
    <div class="seen-list">
      {entries.map((entry) => (
        <SeenLine key={entry.id} entry={entry} sides={sides} edge={edge} />
      ))}
    </div>
  );
  return (
    <section class="seen" aria-labelledby="seen-title">
      <h2 id="seen-title">{words.title}</h2>
      {comparison.otherResults && (
        <p class="quiet">
          <Sentence message={comparison.otherResults.message} names={{ a: sides.a.name, b: sides.b.name }} />
        </p>
      )}
      <p class="seen-columns quiet" aria-hidden="true">
        <span>{words.result}</span>
        <span>{sides.a.name}</span>
        <span>{sides.b.name}</span>
        <span>{words.against({ a: sides.a.name, b: sides.b.name })}</span>
        <span />
        <span>{words.inWords}</span>
      </p>
      {list(first)}
      {rest.length > 0 && (
        <details class="seen-rest">
          <summary>{words.more({ count: rest.length })}</summary>
          {list(rest)}
        </details>
      )}
    </section>
  );
}

function SeenLine({ entry, sides, edge }: { entry: Entry; sides: Sides; edge: number }): VNode {
  const name = resultName(entry.id);
  const compared = 'verdict' in entry ? entry : undefined;
  return (
    <details class={compared ? 'seen-line' : 'seen-line untested'}>
      <summary>
        <span class="seen-name">{name}</span>
        {compared ? (
          <>
            <span class="seen-a">{figure(compared.a, compared.unit, compared.id)}</span>
            <span class="seen-b">{figure(compared.b, compared.unit, compared.id)}</span>
            <SmallPlot difference={compared} edge={edge} />
            <span class="seen-change">{changeText(compared)}</span>
            <span class="seen-word">{seenWord(compared)}</span>
          </>
        ) : (
          <>
            <span class="seen-values">{valuesText(entry)}</span>
            <span class="seen-word">{translateCompare().verdicts.untested}</span>
          </>
        )}
      </summary>
      <DifferenceDetail entry={entry} sides={sides} />
    </details>
  );
}

/** Values of every burn for a result that could not be compared: those of the first side, then those of the second. */
function valuesText({ id, unit = '1', points }: Entry): string {
  const axis = resultAxis(unit, id);
  const decimals = unit === 's' || unit === 'Cel' ? 0 : 1;
  const of = (side: 'a' | 'b') =>
    points
      .filter((point) => point.side === side)
      .map(({ value }) => number(axis.onAxis(value), decimals))
      .join(' ');
  return translateCompare().seen.everyBurn({ a: of('a') || '–', b: of('b') || '–', unit: axis.unit });
}

/** All on one scale: percent of the first side's level, from `-edge` to `edge`. */
function SmallPlot({ difference, edge }: { difference: Difference; edge: number }): VNode {
  const { a, relative, deciding, points } = difference;
  const share = shareOf(-edge, edge);
  const at = (value: number) => share(Math.min(edge, Math.max(-edge, value)));
  return (
    <svg class="small-plot" height="36" aria-hidden="true">
      <line class="no-difference" x1="50%" x2="50%" y1="0" y2="100%" />
      {deciding.relativeInterval && <SmallInterval limits={deciding.relativeInterval} at={at} />}
      {points.map((point) => (
        <BurnDot
          key={point.burnId}
          side={point.side}
          at={at(a === 0 ? 0 : (point.adjusted ?? point.value) / a - 1)}
          y={point.side === 'a' ? 6 : 30}
          size={3}
          title=""
        />
      ))}
      <circle class="likely" cx={`${at(relative)}%`} cy="18" r="5.5" />
    </svg>
  );
}

function SmallInterval({
  limits: [low, high],
  at,
}: {
  limits: [number, number];
  at: (value: number) => number;
}): VNode {
  return <rect class="interval" x={`${at(low)}%`} width={`${Math.max(0.5, at(high) - at(low))}%`} y="15" height="6" />;
}

/** Half the width of the common scale: the extent of intervals and points, up to a limit. */
function edgeOf(entries: readonly Entry[]): number {
  const needed = entries.flatMap((entry) =>
    'verdict' in entry
      ? [
          ...(entry.deciding.relativeInterval ?? []).map(Math.abs),
          ...entry.points.map(({ value, adjusted }) =>
            entry.a === 0 ? 0 : Math.abs((adjusted ?? value) / entry.a - 1),
          ),
        ]
      : [],
  );
  const widest = needed.reduce((a, b) => Math.max(a, b), 0.1);
  return Math.min(widestShown, widest * 1.05);
}
