/** The model against the burns to which it was fitted: the water as measured and as fitted, and the residuals. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { FittedBurn } from '../../../../shared/contract/prediction.ts';
import type { CurveStyle } from '../../../../shared/plot/curve-styles.ts';
import type { TimeChartCurve, TimeChartModel } from '../../../charts/time-chart-model.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { duration, number, onScreen, text, unit } from '../../../language/figures.ts';
import { language, units } from '../../../preferences/preferences.ts';
import { SelectField } from '../../forms/field.tsx';
import { useWide } from '../../kit/use-wide.ts';
import { LineSample } from '../../time-chart/line-sample.tsx';
import { timeChartBase } from '../../time-chart/time-chart-data.ts';
import { TimeChartView } from '../../time-chart/time-chart-view.tsx';

const seenStyle: CurveStyle = { ink: 'water', dash: [], width: 2.5 };
const fittedStyle: CurveStyle = { ink: 'ink', dash: [6, 4], width: 1.5 };
const residualStyle: CurveStyle = { ink: 'ink', dash: [], width: 1.25 };

export function FitTimeChart({
  fits,
  burns,
}: {
  fits: readonly FittedBurn[];
  burns: readonly BurnSummary[];
}): VNode | null {
  const words = translateCompare().fit;
  const wide = useWide();
  const chosen = useSignal(fits[0]?.burnId);
  const fit = fits.find(({ burnId }) => burnId === chosen.value) ?? fits[0];
  // numbers and words follow the units and the language of this device
  const model = useMemo(() => fit && modelOf(fit), [fit, units.value, language.value]);
  if (!fit || !model) return null;
  const nameOf = (id: string) => {
    const burn = burns.find((each) => each.id === id);
    return [burn?.title, burn && burnDay(burn)].filter(Boolean).join(', ');
  };
  return (
    <section class="fit" aria-labelledby="fit-title">
      <h3 id="fit-title">{words.title}</h3>
      <p class="quiet">{words.intro}</p>
      {fits.length > 1 && (
        <SelectField
          label={words.burn}
          value={fit.burnId}
          options={fits.map(({ burnId }) => [burnId, nameOf(burnId)] as const)}
          onChange={(id) => {
            chosen.value = id;
          }}
        />
      )}
      <p>
        {words.figures({
          heat: text('power', fit.heatInputW),
          warmUp: duration(fit.warmUpS),
          residual: text('temperatureDifference', fit.residualK),
        })}
      </p>
      <TimeChartView
        label={words.title}
        model={model}
        limits={wide ? { lowest: 240, highest: 360 } : { lowest: 200, highest: 280 }}
      >
        <ul class="strip-key">
          <li>
            <LineSample style={seenStyle} /> {words.seen}
          </li>
          <li>
            <LineSample style={fittedStyle} /> {words.fitted}
          </li>
        </ul>
      </TimeChartView>
    </section>
  );
}

function modelOf({ curve }: FittedBurn): TimeChartModel {
  const words = translateCompare().fit;
  const x = curve.map(([atS]) => atS / 60);
  const residuals = curve.map(([, seen, fitted]) => onScreen('temperatureDifference', seen - fitted));
  const widest = residuals.reduce((a, b) => Math.max(a, Math.abs(b)), 1);
  const edge = Math.ceil(widest);
  const line = (id: string, label: string, style: CurveStyle, y: readonly number[]): TimeChartCurve => ({
    id,
    label,
    panel: 'plot',
    style,
    x,
    y,
  });
  const curves: TimeChartCurve[] = [
    line(
      'seen',
      words.seen,
      seenStyle,
      curve.map(([, seen]) => onScreen('temperature', seen)),
    ),
    line(
      'fitted',
      words.fitted,
      fittedStyle,
      curve.map(([, , fitted]) => onScreen('temperature', fitted)),
    ),
    {
      ...line('residual', words.residual, residualStyle, residuals),
      panel: 'rate',
      dimension: 'temperatureDifference',
    },
  ];
  const last = x.at(-1) ?? 30;
  const base = timeChartBase(curves, [], { fromMin: 0, toMin: Math.max(10, Math.ceil(last / 5) * 5) });
  const label = words.band({ edge: `${number(edge, 0)}\u00a0${unit('temperatureDifference')}` });
  return { ...base, rate: { low: -edge, high: edge, label } };
}
