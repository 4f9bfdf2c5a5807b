/** What a reader of a whole burn must know, whatever the result. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Message } from '../contract/results.ts';
import { remark } from './messages/messages.ts';

/** Words for food in jars, by language of the page; all of them count, whoever looks. A test holds them to the languages there are. */
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
    // The bath is not the jar, boiling water is not enough for low-acid food, and the authority's schedule decides.
    remarks.push(remark('preservingJarTemperature'), remark('preservingLowAcid'), remark('preservingSchedule'));
  }
  return remarks;
}

function isPreserving({ contents = [], title }: BurnRecord): boolean {
  return contents.length > 0 && (PRESERVING.test(title) || contents.some(({ name }) => PRESERVING.test(name)));
}
