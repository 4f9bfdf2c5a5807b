import { seriesOf } from '../../server/curves/series.ts';
import type { BurnReportInput } from '../../server/reports/burn-report.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, methodSets } from '../../shared/contract/burn-record.ts';

export function reportInput(
  record: BurnRecord,
  choices: Partial<Pick<BurnReportInput, 'language' | 'paper'>> = {},
): BurnReportInput {
  return {
    record,
    analysis: analyse(record, { draws: 300 }),
    byMethod: methodSets.map((method) => analyse(record, { method, draws: 0 })),
    series: seriesOf(record, { points: 500 }),
    language: 'en',
    paper: 'a4',
    softwareVersion: '0.0.0-test',
    recordSha256: 'a1'.repeat(32),
    ...choices,
  };
}
