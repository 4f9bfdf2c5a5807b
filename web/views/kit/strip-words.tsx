/** A strip in words and figures: for the cursor, for a screen reader, for paper. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { StripCurve, StripModel } from '../../charts/strip-model.ts';
import { valueAt } from '../../charts/value-at.ts';
import { say } from '../../state/catalogue.ts';
import { number, unit } from '../../state/figures.ts';
import { minuteText } from './strip-data.ts';
import { WideTable } from './wide-table.tsx';

/** Rows of the table: enough to follow the burn, few enough to listen to. */
const tableRows = 24;

function unitOf(curve: StripCurve): string {
  return unit(curve.dimension ?? (curve.panel === 'rate' ? 'temperatureRate' : 'temperature'));
}

function figureOf(curve: StripCurve, value: number): string {
  return number(value, curve.panel === 'rate' ? 2 : curve.panel === 'hot' ? 0 : 1);
}

function entries(model: StripModel, minute: number): { label: string; text: string; ink: string }[] {
  return model.curves.map((curve) => {
    const value = valueAt(curve, minute);
    return {
      label: curve.label,
      ink: `var(--${curve.style.ink})`,
      text: value === undefined ? say().read.chart.gap : `${figureOf(curve, value)}\u00a0${unitOf(curve)}`,
    };
  });
}

export function readoutText(model: StripModel, minute: number): string {
  const parts = entries(model, minute).map(({ label, text }) => `${label} ${text}`);
  return [say().read.chart.at({ time: minuteText(Math.round(minute)) }), ...parts].join(', ');
}

export function Readout({ model, minute }: { model: StripModel; minute: number }): VNode {
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

/** The strip as a table, made when somebody opens it: one of twenty burns has a thousand cells. */
export function StripTable({ label, model }: { label: string; model: StripModel }): VNode {
  const open = useSignal(false);
  return (
    <details
      class="strip-table"
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>{say().read.chart.asTable}</summary>
      {open.value && <TableOf label={label} model={model} />}
    </details>
  );
}

function TableOf({ label, model }: { label: string; model: StripModel }): VNode {
  const first = Math.max(model.range.fromMin, Math.min(...model.curves.flatMap(({ x }) => x.slice(0, 1))));
  const last = Math.min(model.range.toMin, Math.max(...model.curves.flatMap(({ x }) => x.slice(-1))));
  const span = last - first;
  const step = [1, 2, 5, 10, 15, 30, 60].find((minutes) => span / minutes <= tableRows) ?? 120;
  const minutes: number[] = [];
  for (let at = Math.ceil(first / step) * step; at <= last; at += step) minutes.push(at);
  return (
    <WideTable label={label}>
      <table>
        <thead>
          <tr>
            <th scope="col">{model.minutesLabel ?? say().read.chart.minutes}</th>
            {model.curves.map((curve) => (
              <th scope="col" key={curve.id}>
                {curve.label}, {unitOf(curve)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {minutes.map((minute) => (
            <tr key={minute}>
              <th scope="row">{minute}</th>
              {model.curves.map((curve) => {
                const value = valueAt(curve, minute);
                return <td key={curve.id}>{value === undefined ? say().read.chart.gap : figureOf(curve, value)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
