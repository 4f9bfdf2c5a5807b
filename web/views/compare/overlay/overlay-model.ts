/** The model of the time chart for overlaid burns: their zero, their curves, one band below, and tracks of marks. */
import { type AlignAt, alignmentS } from '../../../../shared/comparison/alignment.ts';
import { heatingPowerW, potLoadOf } from '../../../../shared/comparison/heating-power.ts';
import type { BurnDetail } from '../../../../shared/contract/burns.ts';
import type { Moment } from '../../../../shared/contract/results.ts';
import type { Dimension } from '../../../../shared/language/display-units.ts';
import { type CurveStyle, overlayStyle } from '../../../../shared/plot/curve-styles.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { burnState } from '../../../burn/burn-state.ts';
import type { TimeChartCurve, TimeChartModel, TimeChartTrack } from '../../../charts/time-chart-model.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number, onScreen, text, unit } from '../../../language/figures.ts';
import { shownMarks } from '../../../state/shown-entries.ts';
import { type Curve, timeChartBase, timeChartCurves, timeChartMarks } from '../../time-chart/time-chart-data.ts';
import type { OverlayBurn, OverlayGroup } from './overlay-burns.ts';

export const bands = ['rate', 'power', 'flue'] as const;
export type Band = (typeof bands)[number];

export interface OverlayChoices {
  readonly align: AlignAt;
  readonly band: Band;
  /** One line style and one track for every burn, or for every group. */
  readonly styleBy: 'burn' | 'group';
}

export interface Overlay {
  readonly model: TimeChartModel;
  /** Burns that never reach the moment of alignment, and so cannot be drawn. */
  readonly without: readonly OverlayBurn[];
}

/** The axis begins at most this long before the zero, so that a forgotten recording does not compress the rest. */
const earliestMin = { lit: -15, other: -360 };

/**
 * Overlay burns.
 * @param moments of a burn, for alignment at its target
 */
export function overlayBurns(
  burns: readonly OverlayBurn[],
  groups: readonly OverlayGroup[],
  choices: OverlayChoices,
  moments: (burnId: string) => readonly Moment[] | undefined,
): Overlay {
  const overlay = burns.flatMap((burn) => {
    const zeroS = zeroOf(burn, choices.align, moments(burn.detail.burn.id));
    return zeroS === undefined ? [] : [overlayOne(burn, styleOf(burn, groups, choices), zeroS, choices)];
  });
  const curves = overlay.flatMap((one) => one.curves);
  const base = timeChartBase(curves, tracksOf(overlay, groups, choices), rangeOf(curves, choices.align));
  return {
    model: { ...base, ...bandScale(curves, choices.band), ...zeroWords(choices.align) },
    without: burns.filter((burn) => !overlay.some((one) => one.burn === burn)),
  };
}

type OneOverlay = ReturnType<typeof overlayOne>;

function overlayOne(burn: OverlayBurn, style: CurveStyle, zeroS: number, { band, styleBy }: OverlayChoices) {
  const thin = { ...style, width: Math.min(style.width, 1.25) };
  const curves = [
    ...drawn(burn, ({ id }) => id === 'water', zeroS, style),
    ...(band === 'power' ? powerCurve(burn, zeroS, thin) : drawn(burn, isOf(burn, band), zeroS, thin)),
  ].map((curve) => ({
    ...curve,
    id: `${burn.detail.burn.id} ${curve.id}`,
    label: `${burn.number}. ${burn.name}, ${curve.label}`,
    ...(curve.panel === 'plot' && styleBy === 'burn' && { note: burn.number }),
  }));
  return { burn, style, curves, marks: timeChartMarks(shownMarks(burn.detail), zeroS) };
}

/** Only the requested curves are converted to those of a time chart: twenty burns have two hundred. */
function drawn(
  burn: OverlayBurn,
  which: (curve: Curve) => boolean,
  zeroS: number,
  style: CurveStyle,
): TimeChartCurve[] {
  return timeChartCurves(burn.series.curves.filter(which), zeroS, { style });
}

function isOf({ series }: OverlayBurn, band: 'rate' | 'flue'): (curve: Curve) => boolean {
  if (band === 'rate') return ({ id }) => id === 'waterRate';
  const flue = series.curves.find(({ role }) => role === 'flue') ?? series.curves.find(({ role }) => role === 'riser');
  return (curve) => curve === flue;
}

function powerCurve(burn: OverlayBurn, zeroS: number, style: CurveStyle): TimeChartCurve[] {
  const [rate] = drawn(burn, isOf(burn, 'rate'), zeroS, style);
  const raw = burn.series.curves.find(isOf(burn, 'rate'));
  const load = potLoadOf(asEntered(burn.detail));
  if (!rate || !raw || !load) return [];
  const y = heatingPowerW(raw.t, raw.v, load).map((value) => (value === null ? null : onScreen('power', value)));
  return [{ ...rate, label: translateCompare().overlay.power, dimension: 'power', y }];
}

/** The burn as used in comparisons: withdrawn entries do not count. */
function asEntered({ burn, marks, weighings }: BurnDetail) {
  return {
    contents: burn.contents,
    marks: marks.flatMap(({ mark, withdrawn }) => (withdrawn ? [] : [mark])),
    weighings: weighings.flatMap(({ weighing, withdrawn }) => (withdrawn ? [] : [weighing])),
  };
}

function zeroOf({ detail, series }: OverlayBurn, align: AlignAt, moments: readonly Moment[] = []): number | undefined {
  const litUs = burnState(shownMarks(detail)).litUs;
  const litS = litUs === undefined ? series.litS : litUs / 1e6;
  if (align.at === 'lit') return litS ?? 0;
  const water = series.curves.find(({ id }) => id === 'water');
  const known: Moment[] = litS === undefined ? [] : [{ kind: 'lit', elapsedS: litS, source: 'person' }];
  return alignmentS(
    { moments: align.at === 'target' ? [...moments] : known },
    { timeS: water?.t ?? [], tempC: water?.v ?? [] },
    align,
  );
}

function styleOf(burn: OverlayBurn, groups: readonly OverlayGroup[], { styleBy }: OverlayChoices): CurveStyle {
  const group = groups.find(({ burnIds }) => burnIds.includes(burn.detail.burn.id));
  return styleBy === 'group' && group ? group.style : overlayStyle(burn.place);
}

function tracksOf(
  overlay: readonly OneOverlay[],
  groups: readonly OverlayGroup[],
  { styleBy }: OverlayChoices,
): TimeChartTrack[] {
  if (styleBy === 'burn') return overlay.map(({ burn, style, marks }) => ({ label: burn.number, style, marks }));
  return groups.flatMap(({ name, style, burnIds }) => {
    const marks = overlay.filter(({ burn }) => burnIds.includes(burn.detail.burn.id)).flatMap((one) => one.marks);
    // Masses under the bars of several burns would overlap.
    const quiet = marks.map(({ text: _, ...mark }) => mark).sort((x, y) => x.atMin - y.atMin);
    return marks.length > 0 ? [{ label: name, style, marks: quiet }] : [];
  });
}

function rangeOf(curves: readonly TimeChartCurve[], align: AlignAt): TimeChartModel['range'] {
  const step = align.at === 'lit' ? 5 : 10;
  const first = curves.reduce((least, { x }) => Math.min(least, x[0] ?? 0), 0);
  const last = curves.reduce((most, { x }) => Math.max(most, x.at(-1) ?? 0), 30);
  const early = align.at === 'lit' ? earliestMin.lit : earliestMin.other;
  return { fromMin: Math.floor(Math.max(early, first) / step) * step, toMin: Math.ceil(last / 10) * 10 };
}

/** The scale of the power, which the time chart does not compute itself. */
function bandScale(curves: readonly TimeChartCurve[], band: Band): Pick<TimeChartModel, 'rate'> | undefined {
  if (band !== 'power') return undefined;
  const values = curves.filter(({ panel }) => panel === 'rate').flatMap(({ y }) => y.filter((v) => v !== null));
  if (values.length === 0) return undefined;
  const most = values.reduce((a, b) => Math.max(a, b), 1);
  const least = values.reduce((a, b) => Math.min(a, b), 0);
  const high = roundTicks(0, most, 2).values.at(-1) ?? most;
  const low = Math.max(-1, Math.floor(least));
  return { rate: { low, high: Math.max(high, most), label: bandWords(low, Math.max(high, most), 'power') } };
}

function bandWords(low: number, high: number, dimension: Dimension): string {
  return translateCompare().overlay.powerBand({
    low: number(low, 0),
    high: `${number(high, 0)}\u00a0${unit(dimension)}`,
  });
}

/** The name of the zero of the axis. */
function zeroWords(align: AlignAt): Partial<Pick<TimeChartModel, 'momentLines' | 'minutesLabel'>> {
  const words = translateCompare().overlay;
  if (align.at === 'lit') return {};
  const what = align.at === 'target' ? words.target : text('temperature', align.tempC, 0);
  return { momentLines: [{ atMin: 0, label: what }], minutesLabel: words.minutesFrom({ what }) };
}
