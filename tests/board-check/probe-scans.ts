/** Scans of invented probes, for the tests of probes. */

import { expect } from 'vitest';
import type { CheckedChannel, ProbeReading, ProbeScan } from '../../shared/board-check/probe-scan.ts';
import { createProbeTests } from '../../shared/board-check/probe-tests.ts';
import type { ProbeTestKind } from '../../shared/contract/board-check.ts';
import type { Channel, FaultCode, Place } from '../../shared/contract/burn-record.ts';
import { findingsEn } from '../../shared/language/board-check/board-check.en.ts';
import { findingsFr } from '../../shared/language/board-check/board-check.fr.ts';

export function checkedChannel(
  label: string,
  fields: Partial<Channel> = {},
  more: Partial<CheckedChannel> = {},
): CheckedChannel {
  const channel: Channel = {
    id: `00000000-0000-7000-8000-${label.replaceAll(/\W/g, '').padStart(12, '0').slice(-12)}`,
    name: label,
    role: 'water',
    unit: 'Cel',
    scale: 0.01,
    probe: { kind: 'thermocouple', type: 'K' },
    ...fields,
  };
  return { label, channel, resolution: channel.scale, ...more };
}

/** What a channel sends at a moment: a value, a fault, or nothing usable. */
export type Course = (atS: number) => number | FaultCode | undefined;

/** A reading that varies by this much from scan to scan, in a fixed pattern. */
export const wavering =
  (course: (atS: number) => number, by = 0.02): Course =>
  (atS) =>
    course(atS) + by * Math.sin(2.4 * atS);

export const at = (value: number): Course => wavering(() => value);

/** Changes from one value to another from a moment on, with a time constant of 8 s. */
export const moving = (from: number, to: number, fromS: number): Course =>
  wavering((atS) => (atS < fromS ? from : to + (from - to) * Math.exp(-(atS - fromS) / 8)));

export function reading(sent: number | FaultCode | undefined, scale: number): ProbeReading {
  if (typeof sent === 'string') return { fault: sent };
  return sent === undefined ? { count: 0 } : { value: sent, count: Math.round(sent / scale) };
}

/**
 * Runs a board whose probes have these courses, scanned once a second by default. A test begins after second 30 by
 * default; all ends at `untilS`.
 */
export function checked(
  channels: readonly CheckedChannel[],
  courses: readonly Course[],
  {
    test,
    beginS = 30,
    untilS = 60,
    everyS = 1,
    place,
    silentFromS = Number.POSITIVE_INFINITY,
  }: {
    test?: readonly [index: number, kind: ProbeTestKind];
    beginS?: number;
    untilS?: number;
    everyS?: number;
    place?: Place;
    /** Moment of the last scan. */
    silentFromS?: number;
  } = {},
) {
  const tests = createProbeTests(channels, place);
  let hasBegun = false;
  for (let atS = 0; atS <= untilS; atS += everyS) {
    if (test && !hasBegun && atS > beginS) hasBegun = tests.begin(...test, beginS);
    const scan: ProbeScan = {
      atS,
      readings: courses.map((course, index) => reading(course(atS), channels[index]!.channel.scale)),
    };
    if (atS < silentFromS) tests.take(scan);
    else tests.look(atS);
  }
  const look = tests.look(untilS);
  for (const { code, level, params } of look.findings)
    for (const { sentence, help } of [findingsEn[code]!, findingsFr[code]!]) {
      const words = [sentence(params), level === 'good' ? '' : help?.(params)].join(' ');
      expect(words).not.toMatch(/undefined|NaN/);
      expect(help === undefined).toBe(level === 'good');
    }
  const of = (index: number) =>
    look.findings.filter(({ channel }) => channel === index).map(({ code, level }) => `${level} ${code}`);
  return { look, of, tests };
}
