import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import type { Shown } from '../../outbox/entries.ts';

/** A weighing in a few words: "30.00 kg at 15.0 °C", "to be weighed later". */
export function weighingWords(weighing: Weighing): string {
  const words = translate().burns.wrap;
  if (weighing.pending) return words.pending;
  const mass = weighing.massKg === undefined ? undefined : text('mass', weighing.massKg);
  const volume = weighing.volumeL === undefined ? undefined : text('volume', weighing.volumeL);
  const temp = weighing.tempC === undefined ? undefined : text('temperature', weighing.tempC);
  return [mass ?? volume ?? words.notYet, temp].filter(Boolean).join(', ');
}

/** The weighings before and after, in two columns. */
export function WeighingsList({
  detail,
  weighings,
  hasLink,
}: {
  detail: BurnDetail;
  weighings: readonly Shown<Weighing>[];
  /** Whether the link to weighing is shown here, and not among the next steps. */
  hasLink: boolean;
}): VNode {
  const words = translate().burns.wrap;
  const kinds = [...new Set(weighings.map(({ thing }) => thing.of))];
  const cell = (of: Weighing['of'], when: Weighing['when']) =>
    weighings
      .filter(({ thing }) => thing.of === of && thing.when === when)
      .map(({ thing, state }) =>
        state === 'kept' ? weighingWords(thing) : `${weighingWords(thing)} · ${translate().marks[state]}`,
      )
      .join(' + ');
  return (
    <section class="weighings">
      <h2>{translate().burns.burn.weighings}</h2>
      {kinds.length === 0 ? (
        <p class="quiet">{words.notYet}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">
                <span class="unseen">{translate().burns.burn.weighings}</span>
              </th>
              <th scope="col">{words.startTitle}</th>
              <th scope="col">{words.endTitle}</th>
            </tr>
          </thead>
          <tbody>
            {kinds.map((of) => (
              <tr key={of}>
                <th scope="row">{words[of]}</th>
                <td>{cell(of, 'start')}</td>
                <td>{cell(of, 'end')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {hasLink && (
        <p>
          <a href={routeHash({ at: 'wrapUp', id: detail.burn.id })}>{translate().burns.burn.wrapUp}</a>
        </p>
      )}
    </section>
  );
}
