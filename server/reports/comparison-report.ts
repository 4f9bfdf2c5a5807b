/** The report of a comparison: the verdict, its certainty, every burn, and what else was different. */
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Comparison, Difference } from '../../shared/contract/comparison.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { showValue } from '../../shared/language/result-figures.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { burnTimeOf } from './burn-time.ts';
import { drawIntervals, drawOverlay, type OverlaidBurn } from './comparison-figure.ts';
import { ladderPart } from './ladder-part.ts';
import { narrowWidthPt, type Paper, textWidthPt } from './page-size.ts';
import type { Block, Report } from './report.ts';
import { mainResults } from './results-part.ts';
import { wordsOf } from './words.ts';
import { changeWithInterval } from './written-change.ts';

export interface ComparisonReportInput {
  readonly comparison: Comparison;
  readonly names: Readonly<Record<'a' | 'b', string>>;
  /** All burns requested, including those not counted. */
  readonly burns: readonly (OverlaidBurn & {
    readonly id: string;
    readonly title: string;
    readonly startedUtcMs?: number;
    readonly zone?: string;
    readonly clockSource?: RecordWithoutReadings['clockSource'];
    readonly isSimulated: boolean;
    readonly recordSha256: string;
  })[];
  readonly language: Language;
  readonly paper: Paper;
  readonly softwareVersion: string;
  readonly method: MethodSet;
  readonly methodVersion: string;
}

/** The burns are listed in the order of their days, whatever the order of the request. */
export function comparisonReport(asked: ComparisonReportInput): Report {
  const input = { ...asked, burns: [...asked.burns].sort(byDay) };
  const { comparison, names, burns, language, softwareVersion: version } = input;
  const { report, results } = wordsOf(language);
  const simulated = burns.filter(({ isSimulated }) => isSimulated).length;
  const days = burns.flatMap((burn) => burnTimeOf(burn, language)?.day(0) ?? []);
  const [, ...others] = comparison.differences;
  const seen = [...(comparison.otherResults ? [comparison.otherResults] : []), ...others].map(
    ({ sentence }) => sentence,
  );
  return {
    language,
    title: capital(report.comparison.title(names)),
    subtitle: report.comparison.subtitle({ burns: burns.length, from: days[0] ?? '', to: days.at(-1) ?? '' }),
    footer: report.comparisonFooter({
      version,
      sha256: burns.map(({ recordSha256 }) => recordSha256.slice(0, 8)).join(' '),
    }),
    dateUtcMs: Math.max(...burns.map(({ startedUtcMs = 0 }) => startedUtcMs)),
    blocks: [
      ...(simulated > 0
        ? [{ kind: 'notice', text: report.comparison.simulated({ simulated, burns: burns.length }) } as const]
        : []),
      { kind: 'verdict', text: comparison.sentence },
      ...listOf(undefined, [
        ...(comparison.stopping ? [comparison.stopping.sentence] : []),
        ...(comparison.chosen.when === 'after' ? [] : [comparison.chosen.sentence]),
        ...(comparison.ruleChanged ? [comparison.ruleChanged.sentence] : []),
        ...(comparison.plan?.sentences ?? []),
        report.comparison.caution,
      ]),
      overlayFigure(input),
      intervalsFigure(input),
      { kind: 'heading', text: report.sections.cautions },
      { kind: 'caution', items: report.cautions },
      { kind: 'pageBreak' },
      ...burnsTable(input),
      ...differencesTable(input),
      ...listOf(report.comparison.alsoSeen, seen),
      ...listOf(
        report.comparison.otherwise,
        comparison.alsoDiffered.map(({ sentence }) => sentence),
      ),
      ...ladderPart(comparison, language, input.paper),
      ...listOf(
        report.comparison.narrowing,
        comparison.narrowing.map(({ sentence }) => sentence),
      ),
      { kind: 'heading', text: report.sections.check },
      {
        kind: 'list',
        items: [
          report.check.software({ version, method: results.methods[input.method], methodVersion: input.methodVersion }),
          report.comparison.rule({ version: comparison.ruleVersion }),
          ...burns.map(({ id, recordSha256 }) => report.comparison.checksum({ id, sha256: recordSha256 })),
          report.check.how,
        ],
      },
      { kind: 'signature', labels: Object.values(report.signature) },
    ],
  };
}

type ReportedBurn = ComparisonReportInput['burns'][number];

function byDay(one: ReportedBurn, other: ReportedBurn): number {
  return (one.startedUtcMs ?? 0) - (other.startedUtcMs ?? 0) || (one.id < other.id ? -1 : 1);
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function listOf(heading: string | undefined, items: readonly string[]): Block[] {
  if (items.length === 0) return [];
  return [...(heading === undefined ? [] : [{ kind: 'heading', text: heading } as const]), { kind: 'list', items }];
}

function computed({ comparison }: ComparisonReportInput): Difference[] {
  return comparison.differences.filter((difference) => 'verdict' in difference) as Difference[];
}

function intervalsFigure(input: ComparisonReportInput): Block {
  const { report, results } = wordsOf(input.language);
  const differences = computed(input).filter(({ id }) => id === input.comparison.primary || mainResults.includes(id));
  const names = differences.map(({ id }) => results.names[id]);
  const words = {
    names,
    description: report.comparison.inPercent,
    percent: (relative: number) => `${relative > 0 ? '+' : ''}${showPercent(input.language, relative, 0)}`,
  };
  const rows = differences.map(({ relative, deciding }) => ({ relative, interval: deciding.relativeInterval }));
  return {
    kind: 'figure',
    drawings: [drawIntervals(rows, words, textWidthPt(input.paper))],
    narrow: drawIntervals(rows, words, narrowWidthPt),
    caption: report.comparison.inPercent,
  };
}

function overlayFigure({ burns, names, language, paper }: ComparisonReportInput): Block {
  const { report, number } = wordsOf(language);
  const words = {
    description: report.comparison.overlay,
    waterC: report.figure.water,
    minutes: report.figure.minutes,
    names,
    number,
  };
  const drawing = (heightPt: number) => drawOverlay(burns, words, textWidthPt(paper), heightPt);
  return {
    kind: 'figure',
    drawings: [drawing(200), drawing(160), drawing(120), drawing(90)],
    narrow: drawOverlay(burns, words, narrowWidthPt, 160),
    caption: report.comparison.overlay,
  };
}

function differencesTable(input: ComparisonReportInput): Block[] {
  const { language, names } = input;
  const { report, results } = wordsOf(language);
  const reader = { language, system: 'si' } as const;
  const { columns } = report.comparison;
  return [
    { kind: 'heading', text: report.comparison.differences },
    {
      kind: 'table',
      columns: [
        { title: columns.result, align: 'left', share: 4 },
        { title: names.a, align: 'right', share: 2 },
        { title: names.b, align: 'right', share: 2 },
        { title: columns.difference, align: 'right', share: 2 },
        { title: columns.interval, align: 'right', share: 4 },
        { title: columns.verdict, align: 'left', share: 4 },
      ],
      rows: computed(input).map((difference) => {
        const { id, unit, a, b, verdict, standsOut } = difference;
        const word = id === input.comparison.primary ? report.verdicts[verdict] : '';
        return [
          results.names[id],
          showValue(reader, a, unit, id),
          showValue(reader, b, unit, id),
          ...changeWithInterval(difference, language),
          standsOut?.holds ? report.comparison.standsOut({ among: standsOut.among }) : word,
        ];
      }),
    },
  ];
}

function burnsTable({ comparison, burns, names, language }: ComparisonReportInput): Block[] {
  const { report, results } = wordsOf(language);
  const reader = { language, system: 'si' } as const;
  const primary = comparison.differences[0];
  const rows = burns.map((burn) => {
    const { id, title, side, isSimulated } = burn;
    const point = primary?.points.find(({ burnId }) => burnId === id);
    const aside = comparison.setAside.find(({ burnId }) => burnId === id);
    const value = point && primary?.unit ? showValue(reader, point.value, primary.unit, primary.id) : '';
    const time = burnTimeOf(burn, language);
    return [
      `${isSimulated ? `${title} (${report.comparison.simulatedBurn})` : title}\n${id}`,
      time ? `${time.day(0)}, ${time.time(0).slice(0, 5)}` : '',
      names[side],
      value,
      aside ? aside.sentence : report.comparison.counted,
    ];
  });
  return [
    { kind: 'heading', text: report.comparison.burns },
    {
      kind: 'table',
      columns: [
        { title: report.columns.burn, align: 'left', share: 13 },
        { title: report.columns.date, align: 'left', share: 6 },
        { title: '', align: 'left', share: 4 },
        { title: results.names[comparison.primary], align: 'right', share: 4 },
        { title: '', align: 'left', share: 8 },
      ],
      rows,
    },
  ];
}
