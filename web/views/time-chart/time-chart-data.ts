/** Turns curves, marks and an estimate into what the time chart draws: minutes from lighting, units on screen, words. */
import type { Estimate } from '../../../shared/contract/live-estimates.ts';
import type { Series } from '../../../shared/contract/series.ts';
import type { Dimension } from '../../../shared/language/display-units.ts';
import { type CurveStyle, curveStyleOf, curveStyles } from '../../../shared/plot/curve-styles.ts';
import type { ShownMark } from '../../burn/burn-state.ts';
import type {
  Stretch,
  TimeChartCurve,
  TimeChartFan,
  TimeChartLevel,
  TimeChartMark,
  TimeChartModel,
  TimeChartReading,
  TimeChartTrack,
} from '../../charts/time-chart-model.ts';
import { translate } from '../../language/catalogue.ts';
import { curveOnScreen, number, onScreen, text, unit } from '../../language/figures.ts';
import { units } from '../../preferences/preferences.ts';

export type Curve = Series['curves'][number];

const panels: Record<string, TimeChartCurve['panel']> = {
  water: 'plot',
  contentCore: 'plot',
  ambient: 'plot',
  flue: 'hot',
  riser: 'hot',
  airGap: 'hot',
  body: 'hot',
  waterRate: 'rate',
};

/** The dimension of a curve on screen, for its figures. */
export function dimensionOf({ id, unit: ucum }: Curve): Dimension | undefined {
  if (id === 'waterRate' || ucum === 'K/min') return 'temperatureRate';
  if (ucum === 'kg') return 'mass';
  if (ucum === 'Pa') return 'pressure';
  return ucum === 'Cel' || ucum === 'uV' || ucum === 'Ohm' ? 'temperature' : undefined;
}

/** Stretches left out, by channel. */
export type LeftOut = ReadonlyMap<string, readonly Stretch[]>;

/** Figures after the decimal mark of what is read but not drawn, by its unit. */
const readingDecimals: Readonly<Record<string, number>> = { kg: 2, Pa: 1, Cel: 1, '%': 1 };

/** Channels the time chart has no panel for: scales, pressure, gas, the cold junction. The cursor and the table read them all the same. */
export function timeChartReadings(curves: readonly Curve[], zeroS: number, leftOut: LeftOut): TimeChartReading[] {
  return curves
    .filter((curve) => panels[curve.id === 'waterRate' ? 'waterRate' : curve.role] === undefined)
    .map((curve) => {
      const dimension = dimensionOf(curve);
      return {
        id: curve.id,
        label: curve.name,
        unit: dimension ? unit(dimension) : curve.unit === '1' ? '' : curve.unit,
        decimals: readingDecimals[curve.unit] ?? 3,
        x: curve.t.map((t) => (t - zeroS) / 60),
        y: dimension ? curveOnScreen(dimension, curve.v) : curve.v,
        ...(leftOut.has(curve.id) && { leftOut: leftOut.get(curve.id) ?? [] }),
      };
    });
}

/** Curves the time chart has a panel for. The mean of the water is drawn; its single probes only where `probes` asks for them. */
export function timeChartCurves(
  curves: readonly Curve[],
  zeroS: number,
  {
    probes = false,
    rate = true,
    notes,
    leftOut = new Map(),
    style,
  }: {
    probes?: boolean;
    rate?: boolean;
    /** Writes the last figure of a curve at its end; takes when that was and says how old it is, where it is not of now. */
    notes?: (lastS: number) => string | undefined;
    leftOut?: LeftOut;
    style?: CurveStyle;
  } = {},
): TimeChartCurve[] {
  return curves.flatMap((curve) => {
    const isWaterProbe = curve.role === 'water' && curve.id !== 'water' && curve.id !== 'waterRate';
    const role = curve.id === 'waterRate' ? 'waterRate' : curve.role;
    const panel = panels[role];
    const dimension = dimensionOf(curve);
    if (!panel || !dimension || (isWaterProbe && !probes) || (panel === 'rate' && !rate)) return [];
    const own = isWaterProbe ? curveStyles.waterProbe : role === 'waterRate' ? curveStyles.rate : curveStyleOf(role);
    const y = curveOnScreen(dimension, curve.v);
    const last = curve.v.at(-1);
    const age = curve.handRead ? undefined : notes?.(curve.t.at(-1) ?? 0);
    return [
      {
        id: curve.id,
        label: curveLabel(curve),
        panel,
        style: style ?? own,
        x: curve.t.map((t) => (t - zeroS) / 60),
        y,
        ...(curve.handRead && panel !== 'rate' && { isDotted: true }),
        ...(leftOut.has(curve.id) && { leftOut: leftOut.get(curve.id) ?? [] }),
        ...(notes &&
          (panel === 'hot' || role === 'ambient' || role === 'contentCore') &&
          last !== null &&
          last !== undefined && {
            note: [`${curve.name} ${text(dimension, last, 0)}`, age].filter(Boolean).join(', '),
            ...(age && { isOld: true }),
          }),
      },
    ];
  });
}

/** The name a person knows a curve by. */
export function curveLabel(curve: Curve): string {
  if (curve.id === 'water') return translate().burns.roles.water;
  if (curve.id === 'waterRate') return translate().burns.chart.rateBand;
  return curve.name;
}

/** Lowest and highest value drawn in a panel; beyond each other where nothing is. */
function extremesOf(curves: readonly TimeChartCurve[], panel: TimeChartCurve['panel']): [low: number, high: number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const curve of curves) {
    if (curve.panel !== panel) continue;
    for (const value of curve.y) {
      if (value === null) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return [low, high];
}

/** Scale of the water paper: the whole range from cold water to above the boil, so that every burn is drawn alike. */
export function plotScale(curves: readonly TimeChartCurve[]): TimeChartModel['plot'] {
  const us = units.value === 'usCustomary';
  const square = us ? 10 : 5;
  const labelEvery = us ? 40 : 20;
  const [lowest, highest] = extremesOf(curves, 'plot');
  // Room above the boil for the words of its line.
  return {
    low: Math.floor(Math.min(us ? 30 : 0, lowest) / square) * square,
    high: Math.ceil(Math.max(us ? 230 : 110, highest) / square) * square,
    square,
    labelEvery,
  };
}

export function hotScale(curves: readonly TimeChartCurve[]): TimeChartModel['hot'] {
  const [lowest, highest] = extremesOf(curves, 'hot');
  if (lowest > highest) return undefined;
  const step = 100;
  const high = Math.ceil(Math.max(2 * step, highest) / step) * step;
  return { low: 0, high, label: bandLabel(translate().burns.chart.flueBand, 0, high, 'temperature') };
}

export function rateScale(curves: readonly TimeChartCurve[]): TimeChartModel['rate'] {
  const [lowest, highest] = extremesOf(curves, 'rate');
  if (lowest > highest) return undefined;
  const step = units.value === 'usCustomary' ? 1 : 0.5;
  const high = Math.min(step * 8, Math.ceil(Math.max(step * 2, highest) / step) * step);
  const low = Math.max(step * -2, Math.floor(Math.min(0, lowest) / step) * step);
  return { low, high, label: bandLabel(translate().burns.chart.rateBand, low, high, 'temperatureRate') };
}

/** What a band is and what its lower and upper edge stand for. */
function bandLabel(what: string, low: number, high: number, dimension: Dimension): string {
  const figure = (value: number) => number(value, Number.isInteger(value) ? 0 : 1);
  return translate().burns.chart.band({ what, low: figure(low), high: `${figure(high)}\u00a0${unit(dimension)}` });
}

/** Lines across the paper: where water boils here, the temperature to be reached, and the one a hold must not fall below. */
export function levelsOf({
  boilingC,
  targetC,
  floorC,
}: Readonly<Record<'boilingC' | 'targetC' | 'floorC', number | undefined>>): TimeChartLevel[] {
  const words = translate().run;
  const level = (
    kind: TimeChartLevel['kind'],
    tempC: number | undefined,
    write: (words: { temp: string }) => string,
  ) =>
    tempC === undefined
      ? []
      : [{ kind, value: onScreen('temperature', tempC), label: write({ temp: text('temperature', tempC) }) }];
  return [
    ...level('boil', boilingC, words.boilsHere),
    ...level('target', targetC, words.targetHere),
    ...level('floor', floorC, words.floorHere),
  ];
}

/** Marks as the track draws them. */
export function timeChartMarks(marks: readonly ShownMark[], zeroS: number): TimeChartMark[] {
  // A reading is a point of its curve already.
  const drawn = marks.filter(({ mark }) => mark.kind !== 'reading');
  return drawn.map(({ mark, state }) => ({
    id: mark.id,
    atMin: (mark.elapsedUs / 1e6 - zeroS) / 60,
    kind: mark.kind,
    ...('massKg' in mark && mark.massKg !== undefined && mark.kind !== 'waterIn' && mark.kind !== 'waterOut'
      ? { massKg: mark.massKg }
      : {}),
    ...(mark.kind === 'fed' && mark.massKg !== undefined && { text: number(onScreen('mass', mark.massKg), 2) }),
    waiting: state !== 'kept',
  }));
}

/** The fan from now to the target, when there is a prediction with an interval. */
export function fanOf(estimate: Estimate | undefined, zeroS: number): TimeChartFan | undefined {
  if (!estimate?.toTargetS || estimate.waterTempC === undefined || estimate.targetTempC === undefined) return undefined;
  const nowMin = (estimate.elapsedUs / 1e6 - zeroS) / 60;
  const { value, interval95 } = estimate.toTargetS;
  return {
    fromMin: (readUsOf(estimate) / 1e6 - zeroS) / 60,
    from: onScreen('temperature', estimate.waterTempC),
    to: onScreen('temperature', estimate.targetTempC),
    arrivals: [nowMin + interval95[0] / 60, nowMin + value / 60, nowMin + interval95[1] / 60],
  };
}

/** The moment the water of an estimate is of: now, or when a person last read it. */
export function readUsOf({ waterReadUs, elapsedUs }: Estimate): number {
  return waterReadUs ?? elapsedUs;
}

/** What all time charts have in common. */
export function timeChartBase(
  curves: readonly TimeChartCurve[],
  tracks: readonly TimeChartTrack[],
  range: TimeChartModel['range'],
): TimeChartModel {
  const hot = hotScale(curves);
  const rate = rateScale(curves);
  return {
    curves,
    tracks,
    range,
    plot: plotScale(curves),
    ...(hot && { hot }),
    ...(rate && { rate }),
    momentLines: [],
    gaps: [],
    writeFigure: (value) => number(value, 0),
    trackUnit: units.value === 'usCustomary' ? translate().burns.chart.lbWood : translate().burns.chart.kgWood,
  };
}
