/** A time chart in words and figures: for the cursor, for a screen reader, for paper. */
import type { VNode } from 'preact';
import type { TimeChartCurve, TimeChartModel } from '../../charts/time-chart-model.ts';
import { valueAt } from '../../charts/value-at.ts';
import { translate } from '../../language/catalogue.ts';
import { number, unit } from '../../language/figures.ts';
import { Folded } from '../kit/folded.tsx';
import { minuteText } from '../kit/minute-words.ts';
import { WideTable } from '../kit/wide-table.tsx';

/** Rows of the table: enough to follow the burn, few enough to listen to. */
const tableRows = 24;

/** One thing read along the time chart, drawn or not. */
interface Read {
  readonly id: string;
  readonly label: string;
  readonly ink: string;
  readonly unit: string;
  /** The figure at a minute; undefined in a gap. */
  at(minute: number): string | undefined;
  /** Whether the person left this minute out. */
  isOut(minute: number): boolean;
}

function readsOf({ curves, readings = [] }: TimeChartModel): Read[] {
  return [
    ...curves.map((curve) =>
      readOf(curve, `var(--${curve.style.ink})`, unitOf(curve), { plot: 1, hot: 0, rate: 2 }[curve.panel]),
    ),
    ...readings.map((reading) => readOf(reading, 'var(--quiet)', reading.unit, reading.decimals)),
  ];
}

function readOf(
  curve: Pick<TimeChartCurve, 'id' | 'label' | 'x' | 'y' | 'leftOut'>,
  ink: string,
  unitText: string,
  decimals: number,
): Read {
  return {
    id: curve.id,
    label: curve.label,
    ink,
    unit: unitText,
    at(minute) {
      const value = valueAt(curve, minute);
      return value === undefined ? undefined : number(value, decimals);
    },
    isOut: (minute) => (curve.leftOut ?? []).some(({ fromMin, toMin }) => minute >= fromMin && minute <= toMin),
  };
}

function unitOf(curve: TimeChartCurve): string {
  return unit(curve.dimension ?? (curve.panel === 'rate' ? 'temperatureRate' : 'temperature'));
}

function entries(model: TimeChartModel, minute: number): { label: string; text: string; ink: string }[] {
  const words = translate().burns.chart;
  return readsOf(model).map((read) => {
    const figure = read.at(minute);
    const text = figure === undefined ? words.gap : [figure, read.unit].filter(Boolean).join('\u00a0');
    return { label: read.label, ink: read.ink, text: read.isOut(minute) ? words.leftOut({ text }) : text };
  });
}

export function readoutText(model: TimeChartModel, minute: number): string {
  const parts = entries(model, minute).map(({ label, text }) => `${label} ${text}`);
  return [translate().burns.chart.at({ time: minuteText(Math.round(minute)) }), ...parts].join(', ');
}

export function Readout({ model, minute }: { model: TimeChartModel; minute: number }): VNode {
  return (
    <>
      <b>{minuteText(Math.round(minute))}</b>
      {entries(model, minute).map(({ label, text, ink }) => (
        <span key={label}>
          <span style={{ color: ink }}>{label}</span> {text}
        </span>
      ))}
    </>
  );
}

/** The time chart as a table, made when somebody opens it: one of twenty burns has a thousand cells. */
export function TimeChartTable({ label, model }: { label: string; model: TimeChartModel }): VNode {
  return (
    <Folded class="strip-table" summary={translate().burns.chart.asTable}>
      {() => <TableOf label={label} model={model} />}
    </Folded>
  );
}

function TableOf({ label, model }: { label: string; model: TimeChartModel }): VNode {
  const first = Math.max(model.range.fromMin, Math.min(...model.curves.flatMap(({ x }) => x.slice(0, 1))));
  const last = Math.min(model.range.toMin, Math.max(...model.curves.flatMap(({ x }) => x.slice(-1))));
  const span = last - first;
  const step = [1, 2, 5, 10, 15, 30, 60].find((minutes) => span / minutes <= tableRows) ?? 120;
  const reads = readsOf(model);
  const minutes: number[] = [];
  for (let at = Math.ceil(first / step) * step; at <= last; at += step) minutes.push(at);
  return (
    <WideTable label={label}>
      <table>
        <thead>
          <tr>
            <th scope="col">{model.minutesLabel ?? translate().burns.chart.minutes}</th>
            {reads.map(({ id, label: name, unit: unitText }) => (
              <th scope="col" key={id}>
                {[name, unitText].filter(Boolean).join(', ')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {minutes.map((minute) => (
            <tr key={minute}>
              <th scope="row">{minute}</th>
              {reads.map((read) => {
                const figure = read.at(minute) ?? translate().burns.chart.gap;
                return <td key={read.id}>{read.isOut(minute) ? <del>{figure}</del> : figure}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
