/**
 * All revisions of the stove as a ladder: the level of each, its step with the interval that holds for all of them, the
 * change.
 */
import type { VNode } from 'preact';
import type { Comparison, Ladder, LadderStep } from '../../../../shared/contract/comparison.ts';
import { aroundAll, shareOf } from '../../../../shared/plot/scale.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { text } from '../../../language/figures.ts';
import { figure, resultName } from '../../kit/result-words.ts';
import { changeText } from '../parts/difference-words.ts';
import { intervalOnAxis } from '../parts/interval-on-axis.ts';
import { PlotAxis } from '../parts/plot-axis.tsx';
import { resultAxis } from '../parts/result-axis.ts';
import { Sentence, writtenText } from '../parts/sentence.tsx';

const rowPx = 40;

export function LadderPicture({ comparison }: { comparison: Comparison }): VNode | null {
  const { ladder, primary } = comparison;
  if (!ladder || ladder.rungs.length < 2) return null;
  const words = translateCompare().ladder;
  const { missing, best, effects, noEffects } = ladder;
  const none = { a: '', b: '' };
  return (
    <section class="ladder" aria-labelledby="ladder-title">
      <h2 id="ladder-title">{words.title({ result: resultName(primary) })}</h2>
      {missing && (
        <p class="remark">
          {words.refused} <Sentence message={missing.message} names={none} />
        </p>
      )}
      {best && (
        <p>
          <Sentence message={best.message} names={none} />
        </p>
      )}
      <Rungs ladder={ladder} primary={primary} />
      <h3>{words.changed}</h3>
      <ol class="ladder-steps">
        {ladder.steps.map((step) => (
          <Changed key={`${step.from} ${step.to}`} step={step} ladder={ladder} />
        ))}
      </ol>
      {(effects.length > 0 || noEffects) && <h3>{words.effects}</h3>}
      {effects.map(({ name, message }) => (
        <p key={name}>
          <Sentence message={message} names={none} />
        </p>
      ))}
      {noEffects && (
        <p class="quiet">
          <Sentence message={noEffects.message} names={none} />
        </p>
      )}
    </section>
  );
}

function Rungs({ ladder, primary }: { ladder: Ladder; primary: Comparison['primary'] }): VNode {
  const words = translateCompare().ladder;
  const { rungs, steps, unit, best } = ladder;
  const levelOf = (rung: number) => rungs[rung]?.level ?? 0;
  const levels = rungs.flatMap(({ level }) => level ?? []);
  const limitsOf = ({ from, deciding }: LadderStep) =>
    deciding && intervalOnAxis(deciding, ladder.scale, levelOf(from), levels);
  const axis = resultAxis(unit, primary);
  const { low, high } = aroundAll([...levels, ...steps.flatMap((step) => limitsOf(step) ?? [])]);
  const at = shareOf(low, high);
  return (
    <figure class="ladder-plot" aria-label={words.label({ result: resultName(primary) })}>
      <PlotAxis low={low} high={high} axis={axis} />
      {rungs.map((rung, index) => {
        const { label, level, days } = rung;
        const step = steps.find(({ to }) => to === index);
        return (
          <div class="plot-row rung" key={`${label} ${index}`}>
            <span class="plot-label">
              {rungName(rung)} <b>{level !== undefined && figure(level, unit, primary)}</b>{' '}
              <span class="quiet">
                {words.days({ count: days })}
                {best?.mayBe.includes(index) && `, ${best.mayBe.length === 1 ? words.best : words.mayBe}`}
              </span>
              {step && <StepWords step={step} ladder={ladder} primary={primary} />}
            </span>
            <svg height={rowPx} aria-hidden="true">
              {step && <StepBar limits={limitsOf(step)} from={levelOf(step.from)} at={at} />}
              {level !== undefined && <circle class="likely" cx={`${at(level)}%`} cy={rowPx / 2} r="7" />}
            </svg>
          </div>
        );
      })}
      <figcaption class="quiet">{words.caption({ steps: steps.length })}</figcaption>
    </figure>
  );
}

const rungName = ({ revisionId, label }: Ladder['rungs'][number]) =>
  revisionId ? translateCompare().revision({ label }) : label;

/** "−10 % (−17 to −3) on revision 1: better". */
function StepWords({
  step,
  ladder,
  primary,
}: {
  step: LadderStep;
  ladder: Ladder;
  primary: Comparison['primary'];
}): VNode | null {
  const words = translateCompare();
  const { difference, relative, deciding = {}, verdict } = step;
  if (difference === undefined || relative === undefined) return null;
  const change = changeText({ id: primary, unit: ladder.unit, scale: ladder.scale, difference, relative, deciding });
  const name = rungName(ladder.rungs[step.from]!);
  return (
    <span class="step-words">
      {words.ladder.step({ change, from: name })} <b>{step.deciding ? words.verdicts[verdict] : words.ladder.tooFew}</b>
    </span>
  );
}

function StepBar({
  limits,
  from,
  at,
}: {
  limits: [number, number] | undefined;
  from: number;
  at: (value: number) => number;
}): VNode {
  return (
    <>
      <line class="no-difference" x1={`${at(from)}%`} x2={`${at(from)}%`} y1="0" y2="100%" />
      {limits && (
        <rect
          class="interval"
          x={`${at(limits[0])}%`}
          width={`${at(limits[1]) - at(limits[0])}%`}
          y={rowPx / 2 - 4}
          height="8"
        />
      )}
    </>
  );
}

function Changed({ step: { from, to, changed, remarks }, ladder }: { step: LadderStep; ladder: Ladder }): VNode {
  const words = translateCompare();
  const nameOf = (rung: number) => rungName(ladder.rungs[rung]!);
  const names = { a: nameOf(from), b: nameOf(to) };
  const length = (value: number | undefined, unit: 'm' | 'm2') =>
    value === undefined ? '–' : unit === 'm' ? text('length', value) : `${value} m²`;
  const others = changed.others.map(({ message }) => writtenText(message, names));
  return (
    <li>
      <b>{words.head(names)}</b>
      {changed.change && words.ladder.named({ name: '', text: changed.change })}
      {changed.dimensions.length > 0 && (
        <ul class="quiet">
          {changed.dimensions.map(({ name, unit, from: was, to: is }) => (
            <li key={name}>{words.ladder.named({ name, text: `${length(was, unit)} → ${length(is, unit)}` })}</li>
          ))}
        </ul>
      )}
      {remarks
        // The reason why no step at all has a verdict is shown above them, once.
        .filter(({ message }) => !(ladder.missing && message.code.startsWith('missing/')))
        .map(({ message }) => (
          <p class="remark" key={message.code}>
            {capital(writtenText(message, names))}
          </p>
        ))}
      {others.length > 0 && (
        <details>
          <summary>{words.verdict.alsoDifferent}</summary>
          <ul>
            {others.map((other) => (
              <li key={other}>{other}</li>
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}

const capital = (sentence: string) => sentence.charAt(0).toUpperCase() + sentence.slice(1);
