import type { Analysis } from '../../shared/contract/results.ts';
import { showClock, showDuration, showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** Gaps, excluded stretches, corrections and weighings still to come. */
export function qualityBlocks(record: RecordWithoutReadings, analysis: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const words = report.quality;
  const nameOf = (channelId: string) => record.channels.find((channel) => channel.id === channelId)?.name ?? channelId;
  const litS = analysis.moments.find((moment) => moment.kind === 'lit')?.elapsedS ?? 0;
  const time = (elapsedUs: number) => showClock(language, elapsedUs / 1e6 - litS);

  const items: string[] = [];
  const gapsS = (record.gaps ?? []).map((gap) => (gap.toUs - gap.fromUs) / 1e6);
  if (gapsS.length > 0) {
    const sumS = gapsS.reduce((sum, gapS) => sum + gapS, 0);
    items.push(
      words.gaps({
        count: gapsS.length,
        time: showDuration(language, sumS),
        longest: showDuration(language, Math.max(...gapsS)),
      }),
    );
  }
  for (const { channelId, fromUs, toUs, reason } of record.exclusions ?? []) {
    items.push(words.exclusion({ probe: nameOf(channelId), from: time(fromUs), to: time(toUs), reason }));
  }
  for (const { id, name } of record.channels) {
    const share = analysis.excludedShare[id] ?? 0;
    if (share > 0) items.push(words.share({ probe: name, share: showPercent(language, share) }));
  }
  for (const { channelId, code, fromS, toS } of analysis.flags) {
    if (code !== 'excluded' && code !== 'gap') {
      const what = `${results.flags[code]}, ${time(fromS * 1e6)} – ${time(toS * 1e6)}`;
      items.push(report.working.of({ name: nameOf(channelId), of: what }));
    }
  }
  const edits = record.edits?.length ?? 0;
  if (edits > 0) items.push(words.edits({ count: edits }));
  const pending = record.weighings.filter((weighing) => weighing.pending).map((weighing) => report.of[weighing.of]);
  if (pending.length > 0) items.push(words.pending({ what: pending.join(', ') }));
  if (record.clockSource === 'none') items.push(words.clockNone);
  return [
    { kind: 'heading', text: report.sections.quality },
    { kind: 'list', items: items.length > 0 ? items : [words.none] },
  ];
}
