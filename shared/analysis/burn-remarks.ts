/** Remarks on a burn as a whole, whatever the result. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Message } from '../contract/results.ts';
import { remark } from './messages/messages.ts';

/**
 * Words for food in jars, by language of the page; all languages count, whichever the reader uses. A test checks that
 * no language is missing.
 */
const preservingWords = {
  en: 'jars?|conserves?|preserv\\w*|canning|sterili[sz]\\w*|fruits?|vegetables?|jams?',
  fr: 'bocal|bocaux|conserves?|st[ée]rilis\\w*|fruits?|l[ée]gumes?|confitures?',
};
const PRESERVING = new RegExp(`\\b(${Object.values(preservingWords).join('|')})\\b`, 'i');

export function burnRemarks(record: BurnRecord): Message[] {
  const remarks: Message[] = [];
  if (record.startKind === 'hot') remarks.push(remark('hotStart'));
  if (record.startKind === undefined && record.purpose === undefined) remarks.push(remark('startKindUnknown'));
  if (isPreserving(record)) {
    // The bath is not the jar, boiling water is not enough for low-acid food, and only the schedule of the authority is
    // safe.
    remarks.push(remark('preservingJarTemperature'), remark('preservingLowAcid'), remark('preservingSchedule'));
  }
  return remarks;
}

function isPreserving({ contents = [], title }: BurnRecord): boolean {
  return contents.length > 0 && (PRESERVING.test(title) || contents.some(({ name }) => PRESERVING.test(name)));
}
