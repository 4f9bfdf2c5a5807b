/**
 * The prediction for another load: times and wood with intervals for a new burn, the burns on which it is based, and
 * the fit.
 */
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { Load, Predicted, Prediction } from '../../../../shared/contract/prediction.ts';
import { shareOf } from '../../../../shared/plot/scale.ts';
import { routeHash } from '../../../addresses/router.ts';
import { translateCompare, translateCooling } from '../../../language/catalogue.ts';
import { duration, number, text } from '../../../language/figures.ts';
import { MarkedUpText } from '../../kit/marked-up-text.tsx';
import { figure } from '../../kit/result-words.ts';
import { CourseChart } from './course-chart.tsx';
import { FitTimeChart } from './fit-chart.tsx';
import { loadFacts } from './load-words.ts';

export function PredictionAnswer({
  prediction,
  load,
  burns,
}: {
  prediction: Prediction;
  load: Load;
  burns: readonly BurnSummary[];
}): VNode {
  const words = translateCompare().answer;
  const { timeToTarget, feeding, supported, reasons, why, assumptions, leftOut } = prediction;
  const titleOf = (id: string) => burns.find((burn) => burn.id === id)?.title ?? id;
  return (
    <section class="prediction" aria-labelledby="answer-title">
      <h2 id="answer-title" class="unseen">
        {words.title}
      </h2>
      <p class="asked">
        {words.asked({ load: loadFacts(load).join(' · '), used: burns.length - leftOut.length, count: burns.length })}
      </p>
      {!supported && (
        <div class="unsupported" role="note">
          <p>
            <b>{words.unsupported}</b>
          </p>
          {reasons.length > 0 ? (
            <ul>
              {reasons.map(({ message, sentence }) => (
                <li key={message.code}>{sentence}</li>
              ))}
            </ul>
          ) : (
            <p>{why}</p>
          )}
        </div>
      )}
      <p class="verdict-sentence">
        {'value' in timeToTarget ? (
          <MarkedUpText
            text={words.reached({
              time: duration(timeToTarget.value),
              low: duration(timeToTarget.interval90[0]),
              high: duration(timeToTarget.interval90[1]),
            })}
          />
        ) : (
          timeToTarget.sentence
        )}
      </p>
      <CourseChart course={prediction.course} />
      <ul class="predicted">
        <PredictedLine name={words.time} predicted={timeToTarget} />
        {load.holdDurationS !== undefined && (
          <PredictedLine name={words.batch} predicted={prediction.dryWoodForBatch} />
        )}
        <PredictedLine name={words.wood} predicted={prediction.dryWoodToTarget} />
        <PredictedLine
          name={load.holdDurationS === undefined ? words.hold : words.holdFor({ time: duration(load.holdDurationS) })}
          predicted={prediction.dryWoodForHold}
        />
      </ul>
      {feeding && (
        <p>
          <MarkedUpText
            text={words.feeding({
              charge: text('mass', feeding.chargeKg),
              every: duration(feeding.everyS),
              charges: number(feeding.charges, 0),
            })}
          />
        </p>
      )}
      {supported && <p class="quiet">{why}</p>}
      {assumptions.length > 0 && (
        <>
          <h3>{words.assumptions}</h3>
          <ul class="remarks">
            {assumptions.map(({ message, sentence }) => (
              <li key={message.code}>
                {sentence}{' '}
                {message.code === 'assumed/loss' && (
                  <a href={routeHash({ at: 'cooling' })}>{translateCooling().measureIt}</a>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {leftOut.length > 0 && (
        <>
          <h3>{words.leftOut}</h3>
          <ul class="remarks">
            {leftOut.map(({ burnId, sentence }) => (
              <li key={burnId}>
                {titleOf(burnId)}: {sentence}
              </li>
            ))}
          </ul>
        </>
      )}
      {prediction.fits.length > 0 && <FitTimeChart fits={prediction.fits} burns={burns} />}
    </section>
  );
}

/** One predicted quantity; its interval is drawn relative to its value, so that its width is visible. */
function PredictedLine({ name, predicted }: { name: string; predicted: Predicted }): VNode {
  if ('missing' in predicted)
    return (
      <li>
        <span class="predicted-name">{name}</span>
        <span class="predicted-missing quiet">{predicted.sentence}</span>
      </li>
    );
  const { value, unit, interval90 } = predicted;
  const [low, high] = interval90;
  const at = shareOf(0, high * 1.05);
  return (
    <li>
      <span class="predicted-name">{name}</span>
      <b class="predicted-value">{figure(value, unit)}</b>
      <svg class="predicted-plot" height="24" aria-hidden="true">
        <line class="ground" x1="0" x2="100%" y1="12" y2="12" />
        <rect class="interval" x={`${at(low)}%`} width={`${at(high) - at(low)}%`} y="8" height="8" />
        <circle class="likely" cx={`${at(value)}%`} cy="12" r="6" />
      </svg>
      <span class="predicted-interval">
        {translateCompare().answer.interval({ low: figure(low, unit), high: figure(high, unit) })}
      </span>
    </li>
  );
}
