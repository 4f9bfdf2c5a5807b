/**
 * All revisions of the stove in a report: a drawing of the steps, a table of the changes, and which revisions may be
 * the best.
 */
import type { Comparison, Ladder, LadderStep } from '../../shared/contract/comparison.ts';
import { comparisonSentence } from '../../shared/language/comparison/comparison.ts';
import { show, showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { drawIntervals } from './comparison-figure.ts';
import { narrowWidthPt, type Paper, textWidthPt } from './page-size.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';
import { changeWithInterval } from './written-change.ts';

export function ladderPart({ ladder, primary }: Comparison, language: Language, paper: Paper): Block[] {
  if (!ladder || ladder.rungs.length < 2) return [];
  const { report } = wordsOf(language);
  const words = report.comparison;
  const { steps, missing, best, effects, noEffects, setAside } = ladder;
  const drawn = steps.flatMap((step) => (step.relative === undefined ? [] : [{ ...step, relative: step.relative }]));
  const drawing = (widthPt: number) =>
    drawIntervals(
      drawn.map(({ relative, deciding }) => ({ relative, interval: deciding?.relativeInterval })),
      {
        names: drawn.map((step) => nameOf(ladder, step, language)),
        description: words.steps,
        percent: (relative) => `${relative > 0 ? '+' : ''}${showPercent(language, relative, 0)}`,
      },
      widthPt,
    );
  const figure: Block = {
    kind: 'figure',
    drawings: [drawing(textWidthPt(paper))],
    narrow: drawing(narrowWidthPt),
    caption: words.steps,
  };
  return [
    { kind: 'heading', text: words.ladder },
    ...(missing ? [{ kind: 'text' as const, text: missing.sentence }] : []),
    ...(drawn.length > 0 ? [figure] : []),
    {
      kind: 'table',
      columns: [
        { title: words.stepColumns.step, align: 'left', share: 3 },
        { title: words.stepColumns.changed, align: 'left', share: 5 },
        { title: words.stepColumns.days, align: 'right', share: 2 },
        { title: words.stepColumns.difference, align: 'right', share: 2 },
        { title: words.stepColumns.interval, align: 'right', share: 4 },
        { title: words.stepColumns.verdict, align: 'left', share: 3 },
      ],
      rows: steps.map((step) => {
        const { difference, relative, deciding, look, verdict } = step;
        const figures =
          deciding && difference !== undefined && relative !== undefined
            ? changeWithInterval({ id: primary, ...ladder, difference, relative, deciding }, language)
            : ['', words.noInterval];
        return [
          nameOf(ladder, step, language),
          changedText(step, language),
          words.ofDays(look.days),
          ...figures,
          report.verdicts[verdict],
        ];
      }),
    },
    {
      kind: 'list',
      items: [
        ...steps.flatMap(({ remarks }) => remarks),
        ...(best ? [best] : []),
        ...effects,
        ...(noEffects ? [noEffects] : []),
        ...setAside,
      ].map(({ sentence }) => sentence),
    },
  ];
}

function nameOf({ rungs }: Ladder, { from, to }: LadderStep, language: Language): string {
  const { report } = wordsOf(language);
  const name = (index: number) => {
    const { revisionId, label } = rungs[index]!;
    return revisionId ? comparisonSentence(language, { code: 'name/revision', params: { label } }) : label;
  };
  return report.comparison.title({ a: name(from), b: name(to) });
}

/** The description of the change that the person wrote, and every dimension that differs. */
function changedText({ changed: { change, dimensions } }: LadderStep, language: Language): string {
  const { report } = wordsOf(language);
  const lengths = dimensions.map(({ name, unit, from, to }) => {
    const written = (value: number | undefined) =>
      value === undefined
        ? '–'
        : unit === 'm'
          ? show(language, 'si', 'length', value).text
          : `${wordsOf(language).number(value, 4)} m²`;
    return report.comparison.dimension({ name, change: `${written(from)} → ${written(to)}` });
  });
  return [change?.replace(/\.$/, ''), ...lengths].filter((text) => text !== undefined).join('; ');
}
