/** All revisions of a stove by their dimensions, and any dimension plotted against any result, every burn a point. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { type DesignFigure, designFigures, figureAgainstResult } from '../../../../shared/comparison/design-figures.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { fetchAnalysis } from '../../../requests/analyses.ts';
import { SelectField } from '../../forms/field.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { resultName } from '../../kit/result-words.ts';
import { useLoad } from '../../kit/use-load.ts';
import { StoveSketch, sketchScale } from '../../stoves/stove-sketch-view.tsx';
import { useVesselDiameter } from '../load/use-vessel-diameter.ts';
import { type CountedBurns, fetchCountedBurns } from '../parts/counted-burns.ts';
import { NotCountedList } from '../parts/not-counted-list.tsx';
import { type PrimaryId, primaryIds } from '../parts/primary-ids.ts';
import { revisionsIn, type StoveBurns, StovePick, type StoveScreen, stovesOf } from '../parts/stove-pick.tsx';
import { WithBurns } from '../parts/with-burns.tsx';
import { type Column, DesignTable, hasDimensions } from './design-table.tsx';
import { FigurePlot } from './figure-plot.tsx';

export function DesignPage({ stoveId }: { stoveId: string | undefined }): VNode {
  return (
    <WithBurns
      show={(all, inventory) => {
        const stoves = stovesOf(all);
        const stove = stoves.find(({ id }) => id === stoveId) ?? stoves[0];
        if (stove) return <Design key={stove.id} stoves={stoves} stove={stove} inventory={inventory} />;
        return (
          <div class="page narrow">
            <h1>{translateCompare().design.title}</h1>
            <p>{translateCompare().noStove}</p>
          </div>
        );
      }}
    />
  );
}

function Design({ stoves, stove, inventory }: StoveScreen): VNode {
  const words = translateCompare().design;
  const diameterM = useVesselDiameter(stove.burns);
  const columns = revisionsIn(stove).flatMap(({ id, label }): Column[] => {
    const revision = inventory.revisions.find((each) => each.id === id);
    return revision ? [{ key: id, name: translateCompare().revision({ label }), revision }] : [];
  });
  const states = stove.burns.map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`counted ${states}`, () => fetchCountedBurns(stove.burns, inventory.revisions));
  const counted = loaded.value.value;
  const measured = columns.some(({ revision }) => hasDimensions(revision));
  return (
    <div class="page design-page">
      <header class="page-head">
        <h1>{words.heading({ stove: stove.name })}</h1>
        <p class="quiet facts">{words.noAdvice}</p>
      </header>
      <StovePick show="design" stoves={stoves} chosen={stove} />
      {measured ? (
        <>
          <div class="sketched">
            <Sketches columns={columns} potDiameterM={diameterM} />
            <DesignTable columns={columns} vesselDiameterM={diameterM} />
          </div>
          {counted ? (
            <>
              <Against stove={stove} counted={counted} columns={columns} diameterM={diameterM} />
              <NotCountedList burns={stove.burns} counted={counted} />
            </>
          ) : (
            <Fetching of={loaded} />
          )}
        </>
      ) : (
        <p>{words.noDimensions}</p>
      )}
    </div>
  );
}

/** The revisions next to each other on one scale. */
function Sketches({ columns, potDiameterM }: { columns: readonly Column[]; potDiameterM: number | undefined }): VNode {
  const stoves = columns.map(({ key, name, revision: { dimensionsM = {} } }) => ({
    key,
    name,
    stove: { dimensionsM, potDiameterM },
  }));
  const pxPerM = sketchScale(stoves.map(({ stove }) => stove));
  return (
    <div class="sketches">
      {stoves.map(({ key, name, stove }) => (
        <StoveSketch key={key} stove={stove} pxPerM={pxPerM} caption={name} />
      ))}
    </div>
  );
}

/** A design figure on the horizontal axis, a result on the vertical; only burns that count. */
function Against({
  stove,
  counted,
  columns,
  diameterM,
}: {
  stove: StoveBurns;
  counted: CountedBurns;
  columns: readonly Column[];
  diameterM: number | undefined;
}): VNode | null {
  const words = translateCompare().design;
  const figures = columns.flatMap(({ revision }) => designFigures(revision, diameterM));
  const names = [...new Set(figures.map(({ name }) => name))];
  const chosen = useSignal(names.find((name) => differs(figures, name)) ?? names[0] ?? '');
  const result = useSignal<PrimaryId>('dryWoodPerBatch');
  const burns = stove.burns.filter(({ id }) => counted.ids.includes(id));
  const loaded = useLoad(burns.map(({ id }) => id).join(), () => Promise.all(burns.map(({ id }) => fetchAnalysis(id))));
  const analyses = loaded.value.value;
  const figure = names.includes(chosen.value) ? chosen.value : names[0];
  if (figure === undefined) return null;
  const unit = figures.find(({ name }) => name === figure)?.unit ?? '1';
  const compared = (analyses ?? []).flatMap((analysis) => {
    const burn = burns.find(({ id }) => id === analysis.burnId);
    const revision = columns.find(({ key }) => key === burn?.revision?.id)?.revision;
    if (!burn || !revision) return [];
    const vessel = { id: burn.id, name: '', ...(diameterM !== undefined && { innerDiameterM: diameterM }) };
    return [{ burn: { id: burn.id, revision, vessel }, analysis }];
  });
  return (
    <section aria-labelledby="against-title">
      <h2 id="against-title">{words.against}</h2>
      <div class="filters">
        <SelectField
          label={words.figure}
          value={figure}
          options={names.map((name) => [name, name] as const)}
          onChange={(next) => {
            chosen.value = next;
          }}
        />
        <SelectField
          label={words.result}
          value={result.value}
          options={primaryIds().map((id) => [id, resultName(id)] as const)}
          onChange={(next) => {
            result.value = next;
          }}
        />
      </div>
      {analyses ? (
        <FigurePlot
          figure={{ name: figure, unit }}
          result={result.value}
          points={figureAgainstResult(compared, figure, result.value)}
          unit={unitOfResult(compared, result.value)}
          burns={burns}
        />
      ) : (
        <Fetching of={loaded} />
      )}
    </section>
  );
}

/** A figure that never changed cannot be plotted against a result. */
function differs(figures: readonly DesignFigure[], name: string): boolean {
  return new Set(figures.flatMap((each) => (each.name === name ? [each.value] : []))).size > 1;
}

function unitOfResult(compared: Parameters<typeof figureAgainstResult>[0], id: string): string {
  for (const { analysis } of compared) {
    const found = analysis.results.find((result) => result.id === id);
    if (found && 'value' in found) return found.unit;
  }
  return '1';
}
