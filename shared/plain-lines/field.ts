import type { PlainFormat } from '../contract/boards.ts';
import type { FaultCode } from '../contract/burn-record.ts';

export type PlainField = { kind: 'number'; value: number } | { kind: 'fault'; fault: FaultCode } | { kind: 'text' };

// A label before the number ("T1=20.5") and a unit behind it ("20.5°C") do no harm.
const NUMBER = {
  point: /^(?:[A-Za-z_][\w .-]{0,20}[=:] *)?([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?) *[^\d\s.,;]{0,6}$/,
  comma: /^(?:[A-Za-z_][\w .-]{0,20}[=:] *)?([+-]?(?:\d+(?:,\d+)?|,\d+)(?:[eE][+-]?\d+)?) *[^\d\s.,;]{0,6}$/,
};
const FAULT_WORDS: readonly (readonly [RegExp, FaultCode])[] = [
  [/^(|-+|nan|null|none|n\/?a|\?+)$/i, 'noAnswer'],
  [/^[+-]?(inf|infinity|ovf|ovl|over|overflow|overrange)$/i, 'outOfRange'],
  [/^(open|oc|fault|err|error|disconnected)$/i, 'open'],
];

export function readPlainField(field: string, decimal: PlainFormat['decimal']): PlainField {
  const match = NUMBER[decimal].exec(field.replace('−', '-'));
  if (match) return { kind: 'number', value: Number(match[1]!.replace(',', '.')) };
  for (const [pattern, fault] of FAULT_WORDS) if (pattern.test(field)) return { kind: 'fault', fault };
  return { kind: 'text' };
}
