/** The burns of one revision: their means in the heads of the columns, then each burn. */
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { listedResults } from '../../../shared/contract/listed-results.ts';
import { revisionName } from '../../../shared/language/revision-name.ts';
import { translate } from '../../language/catalogue.ts';
import { day } from '../../language/figures.ts';
import { figure as shownFigure } from '../kit/result-words.ts';
import type { BurnGroup as Group } from './burn-groups.ts';
import { BurnRow, type RowContext } from './burn-row.tsx';
import { BLOCK_ROWS, RowBlock } from './row-block.tsx';

/** @param rowsBefore number of rows above, so that those on the first screen are created at once */
export function BurnGroup({
  group,
  context,
  rowsBefore,
}: {
  group: Group;
  context: RowContext;
  rowsBefore: number;
}): VNode {
  const words = translate().burns.list;
  const name = revisionName(group.stove, group.revision) || words.noRevision;
  const starts = Array.from({ length: Math.ceil(group.burns.length / BLOCK_ROWS) }, (_, index) => index * BLOCK_ROWS);
  return (
    <section class="burn-group">
      <div class="group-head">
        <h2>
          {name} <span class="quiet">{factsOf(group)}</span>
        </h2>
        {listedResults.map((id) => {
          const [mean, scale] = [group.means[id], context.scales[id]];
          return (
            <span key={id} class={`burn-figure ${id}`}>
              {mean && scale && (
                <>
                  <span class="column-name">{words.columns[id]}</span>
                  <b>{shownFigure(mean.value, mean.unit, id)}</b>
                  <span class="quiet mean-of">{words.meanOf({ count: mean.count })}</span>
                </>
              )}
            </span>
          );
        })}
      </div>
      {starts.map((start) => (
        <Block
          key={start}
          group={group}
          start={start}
          context={context}
          isFirst={rowsBefore + start < BLOCK_ROWS * 2}
        />
      ))}
    </section>
  );
}

function Block({
  group: { burns, means },
  start,
  context,
  isFirst,
}: {
  group: Group;
  start: number;
  context: RowContext;
  isFirst: boolean;
}): VNode {
  const members = useMemo(() => burns.slice(start, start + BLOCK_ROWS), [burns, start]);
  return (
    <RowBlock rows={members.length} isFirst={isFirst}>
      {() => members.map((burn) => <BurnRow key={burn.id} burn={burn} means={means} context={context} />)}
    </RowBlock>
  );
}

function factsOf({ burns, stove, revision }: Group): string {
  const words = translate().burns.list;
  const moments = burns.flatMap(({ startedUtcMs }) => startedUtcMs ?? []);
  const [first, last] = [Math.min(...moments), Math.max(...moments)];
  const dates =
    moments.length === 0 ? undefined : day(first) === day(last) ? day(first) : `${day(first)} – ${day(last)}`;
  return [(stove || revision) && words.burnCount({ count: burns.length }), dates].filter(Boolean).join(' · ');
}
