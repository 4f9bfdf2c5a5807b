/** The burn among the burns of its revision and its stove: each a point with its interval, this one marked. */
import type { VNode } from 'preact';
import type { BurnDetail, BurnSummary } from '../../../shared/contract/burns.ts';
import { type ListedResult, listedFigures, listedResults } from '../../../shared/contract/listed-results.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import { shareOf } from '../../../shared/plot/scale.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { resultName, figure as shownFigure } from '../kit/result-words.ts';
import { useLoad } from '../kit/use-load.ts';
import { type BurnGroup, columnScale, figureOf, groupBurns } from './burn-groups.ts';

const MOST_BURNS = 200;
/** Of a revision, the newest. */
const MOST_POINTS = 12;
const MOST_REVISIONS = 4;
const stepPx = 11;

export function Siblings({ detail, analysis }: { detail: BurnDetail; analysis: Analysis }): VNode | null {
  const { burn, summary } = detail;
  const stove = summary.stove?.id;
  const loaded = useLoad(`siblings ${stove} ${burn.id}`, async () =>
    stove === undefined
      ? []
      : (await call('GET /burns', { query: { stove, with: 'figures', limit: MOST_BURNS } })).burns,
  );
  const others = (loaded.value.value ?? []).filter(({ id }) => id !== burn.id);
  // Only if computed by the method of the other burns' results.
  const figures = analysis.method === burn.methodSet ? listedFigures(analysis.results) : [];
  const all = [...others, { ...summary, figures }].sort((a, b) => (b.startedUtcMs ?? 0) - (a.startedUtcMs ?? 0));
  const groups = shownGroups(all, burn.id);
  const shown = listedResults.filter(
    (id) => groups.flatMap((group) => group.burns.filter((each) => figureOf(each, id))).length > 1,
  );
  if (others.length === 0 || shown.length === 0) return null;
  const words = translate().burns.siblings;
  return (
    <section class="siblings" aria-labelledby="siblings-title">
      <h2 id="siblings-title">{words.title}</h2>
      <div class="sibling-columns">
        {shown.map((id) => (
          <Column key={id} id={id} groups={groups} burnId={burn.id} />
        ))}
      </div>
      <p class="quiet">
        {words.help} <a href={routeHash({ at: 'burns' })}>{translate().burns.list.title}</a>
      </p>
    </section>
  );
}

/** The revision of the burn first, then the newest others. */
function shownGroups(all: readonly BurnSummary[], burnId: string): BurnGroup[] {
  const groups = groupBurns(
    all.filter(({ status }) => status === 'ended' || status === 'complete' || status === 'setAside'),
    'newest',
  );
  const own = groups.find(({ burns }) => burns.some(({ id }) => id === burnId));
  return [...(own ? [own] : []), ...groups.filter((group) => group !== own)].slice(0, MOST_REVISIONS);
}

function Column({
  id,
  groups,
  burnId,
}: {
  id: ListedResult;
  groups: readonly BurnGroup[];
  burnId: string;
}): VNode | null {
  const words = translate().burns.siblings;
  const rows = groups
    .map((group) => ({ group, points: pointsOf(group, id, burnId) }))
    .filter(({ points }) => points.length > 0);
  const scale = columnScale(
    rows.flatMap(({ points }) => points),
    id,
  );
  if (!scale) return null;
  const share = shareOf(scale.low, scale.high);
  const at = (value: number) => `${share(value)}%`;
  return (
    <figure>
      <figcaption>{resultName(id)}</figcaption>
      {rows.map(({ group, points }) => {
        const mean = group.means[id];
        const name = words.revision({ name: group.revision?.label ?? '–' });
        return (
          <div class="sibling-row" key={group.id}>
            <span class="quiet">
              {name} {mean && <b>{shownFigure(mean.value, mean.unit, id)}</b>}{' '}
              {mean && translate().burns.list.meanOf({ count: mean.count })}
            </span>
            <svg height={points.length * stepPx + 4} role="img" aria-label={pointsText(points, id, burnId)}>
              {mean && <line class="bar-level" x1={at(mean.value)} x2={at(mean.value)} y1="0" y2="100%" />}
              {points.map((burn, index) => (
                <Point key={burn.id} burn={burn} id={id} at={at} y={index * stepPx + 8} isThis={burn.id === burnId} />
              ))}
            </svg>
          </div>
        );
      })}
    </figure>
  );
}

/** The newest burns that have the result; the burn itself always. */
function pointsOf({ burns }: BurnGroup, id: ListedResult, burnId: string): BurnSummary[] {
  const withFigure = burns.filter((burn) => figureOf(burn, id));
  const newest = withFigure.slice(0, MOST_POINTS);
  return newest.some((burn) => burn.id === burnId)
    ? newest
    : [...withFigure.filter((burn) => burn.id === burnId), ...newest];
}

function Point({
  burn,
  id,
  at,
  y,
  isThis,
}: {
  burn: BurnSummary;
  id: ListedResult;
  at: (value: number) => string;
  y: number;
  isThis: boolean;
}): VNode | null {
  const found = figureOf(burn, id);
  if (!found) return null;
  const [low, high] = found.interval95 ?? [found.value, found.value];
  return (
    <g class={isThis ? 'this-burn' : burn.status}>
      <title>{`${burn.title}, ${shownFigure(found.value, found.unit, id)}`}</title>
      <line class="point-interval" x1={at(low)} x2={at(high)} y1={y} y2={y} />
      <circle class="point-value" cx={at(found.value)} cy={y} r={isThis ? 5 : 3} />
    </g>
  );
}

function pointsText(points: readonly BurnSummary[], id: ListedResult, burnId: string): string {
  const words = translate().burns.siblings;
  return points
    .flatMap((burn) => {
      const found = figureOf(burn, id);
      const name = burn.id === burnId ? words.thisBurn : burn.title;
      return found ? `${name}\u00a0: ${shownFigure(found.value, found.unit, id)}` : [];
    })
    .join(' · ');
}
