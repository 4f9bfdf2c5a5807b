/**
 * Checks what a schema cannot: whether the parts of a burn record are consistent. The analysis accepts a record that
 * passes; impossible masses (more left than brought) are not refused here, they make results missing with the reason.
 */

import { isDate } from '../contract/burn-date.ts';
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Mark } from '../contract/marks.ts';
import type { Message } from '../contract/results.ts';
import type { Weighing } from '../contract/weighings.ts';

export const recordProblemCodes = [
  'twice',
  'unknownChannel',
  'unknownLot',
  'unknownScale',
  'columnLength',
  'notRising',
  'readTwice',
  'faultPlace',
  'noColdJunction',
  'noConversion',
  'weighingEmpty',
  'weighingTwofold',
  'volumeOfSolid',
  'moistureOfOther',
  'endBeforeStart',
  'notADate',
] as const;
export type RecordProblemCode = (typeof recordProblemCodes)[number];

export interface RecordProblem {
  /** Where in the record, e.g. "readings.0.columns.2". */
  readonly path: string;
  readonly message: Message;
}

const MOST = 50;

/** Returns all inconsistencies, at most fifty; none for a valid record. */
export function checkRecord(record: BurnRecord): RecordProblem[] {
  const problems: RecordProblem[] = [];
  const report = (path: string, code: RecordProblemCode, params: Message['params'] = {}) => {
    if (problems.length < MOST) problems.push({ path, message: { code, params } });
  };
  checkIdentities(record, report);
  checkReferences(record, report);
  checkReadings(record, report);
  checkChannels(record, report);
  checkWeighings(record, report);
  // A record made without a clock states so, and is not refused for the year in which such a machine starts.
  if (record.startedUtcMs !== undefined && record.clockSource !== 'none' && !isDate(record.startedUtcMs)) {
    report('startedUtcMs', 'notADate');
  }
  record.gaps?.forEach(({ fromUs, toUs }, at) => {
    if (toUs < fromUs) report(`gaps.${at}`, 'endBeforeStart');
  });
  record.exclusions?.forEach(({ fromUs, toUs }, at) => {
    if (toUs < fromUs) report(`exclusions.${at}`, 'endBeforeStart');
  });
  return problems;
}

type ReportProblem = (path: string, code: RecordProblemCode, params?: Message['params']) => void;

function checkIdentities(record: BurnRecord, report: ReportProblem): void {
  const lists = {
    channels: record.channels,
    fuelLots: record.fuelLots,
    scales: record.scales ?? [],
    contents: record.contents ?? [],
    marks: record.marks,
    weighings: record.weighings,
    exclusions: record.exclusions ?? [],
  };
  for (const [name, list] of Object.entries(lists)) {
    const seen = new Set<string>();
    list.forEach(({ id }, at) => {
      if (seen.has(id)) report(`${name}.${at}.id`, 'twice', { id });
      seen.add(id);
    });
  }
}

function checkReferences(record: BurnRecord, report: ReportProblem): void {
  const channels = new Set(record.channels.map(({ id }) => id));
  const lots = new Set(record.fuelLots.map(({ id }) => id));
  const scales = new Set((record.scales ?? []).map(({ id }) => id));
  const channel = (path: string, id: string | undefined) => {
    if (id !== undefined && !channels.has(id)) report(path, 'unknownChannel', { id });
  };
  const lotAndScale = (path: string, item: Mark | Weighing) => {
    const lot = 'fuelLotId' in item ? item.fuelLotId : undefined;
    const scale = 'scaleId' in item ? item.scaleId : undefined;
    if (lot !== undefined && !lots.has(lot)) report(`${path}.fuelLotId`, 'unknownLot', { id: lot });
    if (scale !== undefined && !scales.has(scale)) report(`${path}.scaleId`, 'unknownScale', { id: scale });
  };
  record.channels.forEach((item, at) => {
    channel(`channels.${at}.coldJunctionChannelId`, item.coldJunctionChannelId);
  });
  record.contents?.forEach((item, at) => {
    channel(`contents.${at}.coreChannelId`, item.coreChannelId);
  });
  record.exclusions?.forEach((item, at) => {
    channel(`exclusions.${at}.channelId`, item.channelId);
  });
  record.marks.forEach((mark, at) => {
    lotAndScale(`marks.${at}`, mark);
    if (mark.kind === 'probeMoved' || mark.kind === 'reading') channel(`marks.${at}.channelId`, mark.channelId);
  });
  record.weighings.forEach((weighing, at) => {
    lotAndScale(`weighings.${at}`, weighing);
  });
}

function checkReadings(record: BurnRecord, report: ReportProblem): void {
  const channels = new Set(record.channels.map(({ id }) => id));
  const read = new Set<string>();
  record.readings.forEach(({ elapsedUs, sequence, boot, columns }, block) => {
    const path = `readings.${block}`;
    const scans = elapsedUs.length;
    const late = elapsedUs.findIndex((moment, at) => at > 0 && moment <= elapsedUs[at - 1]!);
    if (late >= 0) report(`${path}.elapsedUs.${late}`, 'notRising', { elapsedUs: elapsedUs[late]! });
    for (const [name, list] of Object.entries({ sequence, boot })) {
      if (list && list.length !== scans) report(`${path}.${name}`, 'columnLength', { length: list.length, scans });
    }
    columns.forEach(({ channelId, counts, faults }, column) => {
      const where = `${path}.columns.${column}`;
      if (!channels.has(channelId)) report(`${where}.channelId`, 'unknownChannel', { id: channelId });
      if (read.has(channelId)) report(`${where}.channelId`, 'readTwice', { id: channelId });
      read.add(channelId);
      if (counts.length !== scans) report(`${where}.counts`, 'columnLength', { length: counts.length, scans });
      const lost = faults?.find(([index]) => index >= counts.length);
      if (lost) report(`${where}.faults`, 'faultPlace', { place: lost[0], length: counts.length });
    });
  });
}

function checkChannels(record: BurnRecord, report: ReportProblem): void {
  record.channels.forEach(({ unit, probe, coldJunctionChannelId, name }, at) => {
    if (unit === 'uV' && (probe?.kind !== 'thermocouple' || coldJunctionChannelId === undefined)) {
      report(`channels.${at}`, 'noColdJunction', { channel: name });
    }
    const converts =
      probe?.kind === 'resistance' ||
      (probe?.kind === 'thermistor' && (probe.steinhartHart ?? probe.beta) !== undefined);
    if (unit === 'Ohm' && !converts) report(`channels.${at}`, 'noConversion', { channel: name });
  });
}

function checkWeighings(record: BurnRecord, report: ReportProblem): void {
  record.weighings.forEach(({ of, massKg, volumeL, moisture, pending }, at) => {
    const path = `weighings.${at}`;
    const given = (massKg === undefined ? 0 : 1) + (volumeL === undefined ? 0 : 1);
    if (given === 0 && !pending) report(path, 'weighingEmpty', { of });
    if (given === 2 || (given === 1 && pending)) report(path, 'weighingTwofold', { of });
    if (volumeL !== undefined && of !== 'water') report(`${path}.volumeL`, 'volumeOfSolid', { of });
    if (moisture && of !== 'brands') report(`${path}.moisture`, 'moistureOfOther', { of });
  });
}
