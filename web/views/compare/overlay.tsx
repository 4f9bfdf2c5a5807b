/** Burns laid over each other, all starting at their lighting, with the table of their results. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail, Series } from '../../../shared/contract/api.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import { overlayStyle } from '../../charts/palette.ts';
import type { StripModel } from '../../charts/strip-model.ts';
import { burnState } from '../../lib/burn-state.ts';
import { routeHash } from '../../lib/router.ts';
import { fetchAnalysis } from '../../state/analyses.ts';
import { say } from '../../state/catalogue.ts';
import { day } from '../../state/figures.ts';
import { loadBurn } from '../../state/open-burn.ts';
import { call } from '../../state/service.ts';
import { shownMarks } from '../../state/shown-marks.ts';
import { Fetching } from '../kit/fetching.tsx';
import { LineSample } from '../kit/line-sample.tsx';
import { stripBase, stripCurves, stripMarks } from '../kit/strip-data.ts';
import { StripView } from '../kit/strip-view.tsx';
import { useLoad } from '../kit/use-load.ts';
import { useWide } from '../kit/use-wide.ts';
import { ResultsBeside } from './results-beside.tsx';

export interface LaidBurn {
  readonly place: number;
  readonly name: string;
  readonly detail: BurnDetail;
  readonly series: Series;
  readonly analysis: Analysis | undefined;
}

async function fetchBurns(ids: readonly string[]): Promise<LaidBurn[]> {
  const burns = await Promise.all(
    ids.map(async (id) => ({
      detail: await loadBurn(id),
      series: await call<Series>('GET', `/burns/${id}/series?points=800`),
    })),
  );
  return burns.map((burn, place) => ({ ...burn, place, name: burn.detail.burn.title, analysis: undefined }));
}

export function Overlay({ ids }: { ids: readonly string[] }): VNode {
  const words = say().read.overlay;
  const loaded = useLoad(ids.join(' '), () => fetchBurns(ids));
  // Curves come at once; working out results anew may take the service a moment.
  const analyses = useLoad(`results ${ids.join(' ')}`, () => Promise.all(ids.map((id) => fetchAnalysis(id))));
  const hidden = useSignal<readonly string[]>([]);
  const wide = useWide();
  if (ids.length < 2)
    return (
      <div class="page">
        <h1>{words.title}</h1>
        <p>
          <a href={routeHash({ at: 'burns' })}>{words.choose}</a>
        </p>
      </div>
    );
  const burns = loaded.value.value;
  if (!burns) return <Fetching of={loaded} />;
  const shown = burns.filter(({ detail }) => !hidden.value.includes(detail.burn.id));
  return (
    <div class="page overlay">
      <header class="page-head">
        <h1>{burns.map(({ name }) => name).join(' / ')}</h1>
        <p class="quiet facts">{words.alignedLit}</p>
      </header>
      <p class="lead small">{words.one}</p>
      <ul class="key">
        {burns.map(({ detail, name, place }) => (
          <li key={detail.burn.id}>
            <label class="check">
              <input
                type="checkbox"
                checked={!hidden.value.includes(detail.burn.id)}
                aria-label={words.hide({ title: name })}
                onChange={(event) => {
                  const others = hidden.value.filter((id) => id !== detail.burn.id);
                  hidden.value = event.currentTarget.checked ? others : [...others, detail.burn.id];
                }}
              />
              <LineSample style={overlayStyle(place)} />
            </label>
            <a href={routeHash({ at: 'burn', id: detail.burn.id })}>{name}</a>
            <span class="quiet">{factsOf(detail)}</span>
          </li>
        ))}
      </ul>
      <StripView
        label={words.title}
        model={overlayModel(shown)}
        limits={wide ? { lowest: 300, highest: 460 } : { lowest: 220, highest: 320 }}
      />
      {burns
        .filter(({ detail }) => burnState(shownMarks(detail)).litUs === undefined)
        .map(({ detail, name }) => (
          <p class="quiet" key={detail.burn.id}>
            {words.notLit({ title: name })}
          </p>
        ))}
      {analyses.value.value ? (
        <ResultsBeside burns={burns.map((burn) => ({ ...burn, analysis: analyses.value.value?.[burn.place] }))} />
      ) : (
        <Fetching of={analyses} />
      )}
    </div>
  );
}

function factsOf({ burn, summary }: BurnDetail): string {
  return [
    summary.revision && `${say().describe.revision.toLowerCase()} ${summary.revision.label}`,
    burn.startedUtcMs !== undefined && day(burn.startedUtcMs, burn.zone),
    burn.operator,
    burn.status === 'setAside' && say().read.list.status.setAside,
  ]
    .filter(Boolean)
    .join(' · ');
}

function overlayModel(burns: readonly LaidBurn[]): StripModel {
  const laid = burns.map((burn) => {
    const marks = shownMarks(burn.detail);
    const zeroS = (burnState(marks).litUs ?? 0) / 1e6;
    const style = overlayStyle(burn.place);
    const curves = stripCurves(burn.series.curves, zeroS, { style })
      .filter(({ id }) => id === 'water' || id === 'waterRate')
      .map((curve) => ({
        ...curve,
        id: `${burn.detail.burn.id} ${curve.id}`,
        label: `${burn.name}, ${curve.label}`,
        style: curve.panel === 'rate' ? { ...style, width: 1.25 } : style,
      }));
    return { burn, style, curves, marks: stripMarks(marks, zeroS) };
  });
  const curves = laid.flatMap((entry) => entry.curves);
  const last = Math.max(30, ...curves.flatMap(({ x }) => x.slice(-1)));
  const first = Math.max(-15, Math.min(0, ...curves.flatMap(({ x }) => x.slice(0, 1))));
  const lanes = laid.map(({ burn, style, marks }) => ({
    label: burn.detail.summary.revision?.label ?? String(burn.place + 1),
    style,
    marks,
  }));
  return stripBase(curves, lanes, { fromMin: Math.floor(first / 5) * 5, toMin: Math.ceil(last / 10) * 10 });
}
