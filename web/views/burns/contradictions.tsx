/**
 * What does not fit together in a burn: listed once, numbered, and marked next to every result that it makes doubtful.
 */
import type { VNode } from 'preact';
import {
  contradictionsOf,
  isContradiction,
  type LookAt,
  whereToLook,
} from '../../../shared/analysis/messages/contradiction-codes.ts';
import type { Analysis, ResultId } from '../../../shared/contract/results.ts';
import { routeHash } from '../../addresses/router.ts';
import { translateResult } from '../../language/catalogue.ts';

export function Contradictions({ analysis }: { analysis: Analysis }): VNode | null {
  const words = translateResult().contradictions;
  const found = analysis.remarks.filter(isContradiction);
  if (found.length === 0) return null;
  const hashes: Partial<Record<LookAt, string>> = {
    weighings: routeHash({ at: 'wrapUp', id: analysis.burnId }),
    wood: routeHash({ at: 'shelf', kind: 'fuelLots' }),
    place: routeHash({ at: 'shelf', kind: 'places' }),
    probes: routeHash({ at: 'rig' }),
  };
  return (
    <section class="contradictions" aria-labelledby="contradictions-title">
      <h3 id="contradictions-title">{words.title}</h3>
      <p class="quiet">{words.intro}</p>
      <ol>
        {found.map((message, index) => (
          <li key={index}>
            {translateResult().remarks(message)}{' '}
            {whereToLook(message).map(
              (place) =>
                hashes[place] && (
                  <a key={place} href={hashes[place]}>
                    {words.look[place]}
                  </a>
                ),
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** A link from the main results of a page to the contradictions further down. */
export function ToContradictions({ analysis }: { analysis: Analysis }): VNode | null {
  const count = analysis.remarks.filter(isContradiction).length;
  if (count === 0) return null;
  const show = () => document.getElementById('contradictions-title')?.scrollIntoView();
  return (
    <button type="button" class="plain" onClick={show}>
      {translateResult().contradictions.title} ({count})
    </button>
  );
}

/** The numbers of the contradictions that make a result doubtful. */
export function ContradictionMarks({ analysis, id }: { analysis: Analysis; id: ResultId }): VNode | null {
  const numbers = contradictionsOf(analysis.remarks, id);
  if (numbers.length === 0) return null;
  return (
    <span class="contradiction-marks">
      {numbers.map((number) => (
        <span key={number}>
          <span aria-hidden="true">{number}</span>
          <span class="unseen">{translateResult().contradictions.see({ number })}</span>
        </span>
      ))}
    </span>
  );
}
