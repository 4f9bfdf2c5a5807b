/**
 * The next test of an idea: what it would be confounded with, how many days it takes, and a card to print. The gain is
 * not guessed.
 */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { InventoryItem } from '../../../../shared/contract/inventory.ts';
import type { NextTest } from '../../../../shared/contract/next-test.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { uuid7 } from '../../../outbox/uuid7.ts';
import { paper } from '../../../preferences/paper-size.ts';
import { language } from '../../../preferences/preferences.ts';
import { type AskedIdea, fetchNextTest, ideaQuery } from '../../../requests/comparisons.ts';
import { linkTo } from '../../../requests/http.ts';
import { addToInventory } from '../../../state/inventory.ts';
import { TextField } from '../../forms/field.tsx';
import { useDraft } from '../../forms/use-draft.ts';
import { sentenceFor } from '../../kit/use-load.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import { Sentence } from '../parts/sentence.tsx';

interface Draft {
  readonly change: string;
  readonly parts: string;
  readonly lots: string;
}

/** @param base the revision from which the idea starts; undefined, and no form, where burns were chosen by hand */
export function NextTestForm({ base }: { base: InventoryItem<'revisions'> | undefined }): VNode | null {
  const { draft } = useDraft<Draft>(`next-test.${base?.id ?? ''}`, { change: '', parts: '', lots: '' });
  const found = useSignal<{ idea: AskedIdea; test: NextTest } | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  if (!base) return null;
  const words = translateCompare().nextTest;
  const set = (key: keyof Draft) => (text: string) => {
    draft.value = { ...draft.value, [key]: text };
    found.value = undefined;
  };
  const ask = async (event: Event) => {
    event.preventDefault();
    const change = draft.value.change.trim();
    problem.value = change ? undefined : words.changeMissing;
    if (!change) return;
    const idea = { revisionId: base.id, change, parts: linesOf(draft.value.parts), lots: linesOf(draft.value.lots) };
    try {
      found.value = { idea, test: await fetchNextTest(idea) };
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <section class="next-test" aria-labelledby="next-test-title">
      <h2 id="next-test-title">{words.title}</h2>
      <p class="quiet">{words.noGuess}</p>
      <form onSubmit={ask}>
        <TextField label={words.change} value={draft.value.change} onInput={set('change')} problem={problem.value} />
        <TextField
          label={words.parts}
          hint={words.partsHelp}
          lines={3}
          value={draft.value.parts}
          onInput={set('parts')}
        />
        <TextField label={words.lots} hint={words.lotsHelp} lines={2} value={draft.value.lots} onInput={set('lots')} />
        <button type="submit" class="primary">
          {words.ask}
        </button>
      </form>
      {found.value && <Found {...found.value} base={base} />}
    </section>
  );
}

function Found({ idea, test, base }: { idea: AskedIdea; test: NextTest; base: InventoryItem<'revisions'> }): VNode {
  const words = translateCompare().nextTest;
  const made = useSignal<string | undefined>(undefined);
  const none = { a: '', b: '' };
  const query = { ...ideaQuery(idea), language: language.value, paper: paper.value };
  const card = linkTo('GET /next-test/card.pdf', { query });
  const baseName = translateCompare().revision({ label: test.base });
  const make = async () => {
    try {
      const { stoveId } = base;
      const label = idea.change.slice(0, 40);
      const plannedDays = { days: test.days };
      await addToInventory('revisions', {
        id: uuid7(),
        stoveId,
        label,
        parentId: base.id,
        change: idea.change,
        plannedDays,
      });
      made.value = words.made({ days: test.days });
    } catch (cause) {
      made.value = sentenceFor(cause);
    }
  };
  return (
    <div class="found-test" aria-live="polite">
      <ul>
        {test.says.map(({ message }) => (
          <li key={message.code}>
            <Sentence message={message} names={none} />
          </li>
        ))}
      </ul>
      <WideTable label={words.card}>
        <table class="card">
          <caption>{words.card}</caption>
          <thead>
            <tr>
              <th scope="col">{words.day}</th>
              <th scope="col">{words.burn}</th>
              <th scope="col">{words.lot}</th>
            </tr>
          </thead>
          <tbody>
            {test.card.map(({ day, revision, lot }) => (
              <tr key={day}>
                <th scope="row">{day}</th>
                <td>{revision === 'base' ? baseName : idea.change}</td>
                <td>{lot ?? words.anyLot}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      <p class="row">
        <a class="button" href={card} download>
          {words.print}
        </a>
        {made.value === undefined && (
          <button type="button" onClick={make}>
            {words.make({ days: test.days })}
          </button>
        )}
      </p>
      {made.value !== undefined && <p role="status">{made.value}</p>}
    </div>
  );
}

const linesOf = (text: string) =>
  text
    .split(/[\n;]/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
