/** Burns from another bench: what is new, what exists already, what differs. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ImportChoice, ImportItem, ImportPreview } from '../../../shared/contract/imports.ts';
import { routeHash } from '../../addresses/router.ts';
import { translateImport } from '../../language/catalogue.ts';
import { focusFirstWrong } from '../forms/focus-first-wrong.ts';
import { Difference } from './difference.tsx';
import { FileEnd } from './file-end.tsx';
import { isOnInventory, itemKey, thingsWords } from './item-words.ts';
import type { Staged } from './use-staged.ts';

export function Merge({
  staged,
  preview,
}: {
  staged: Staged;
  preview: Extract<ImportPreview, { kind: 'burns' }>;
}): VNode {
  const words = translateImport().merge;
  const { items, file } = preview;
  const taken = staged.work.value.taken ?? {};
  const tried = useSignal(false);
  const burns = items.filter(({ kind }) => kind === 'burn');
  const inventory = items.filter(isOnInventory);
  const differing = items.filter(({ state }) => state === 'differs');
  const toDecide = differing.filter(({ choices }) => choices?.length !== 1);
  const undecided = toDecide.filter((item) => taken[itemKey(item)] === undefined);
  const isAllHere = items.every(({ state }) => state === 'same');
  const takeAll = (choice: ImportChoice) => {
    staged.update({ taken: Object.fromEntries(toDecide.map((item) => [itemKey(item), choice])) });
  };
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (undecided.length > 0) return focusFirstWrong(event.currentTarget);
        const decisions = toDecide.map((item) => {
          const { kind, id } = item;
          return { kind, id, take: taken[itemKey(item)] ?? ('mine' as const) };
        });
        void staged.save({ decisions });
      }}
    >
      <p class="lead small">{words.intro({ file, count: burns.length })}</p>
      {isAllHere && <p>{words.nothingNew}</p>}
      {items.every(({ state }) => state === 'new') && <p>{words.allNew}</p>}
      <section aria-labelledby="brought-burns">
        <h2 id="brought-burns">{words.burns}</h2>
        <ul class="brought">
          {burns.map((burn) => (
            <BurnLine key={burn.id} burn={burn} items={items.filter(({ burnId }) => burnId === burn.id)} />
          ))}
        </ul>
      </section>
      {inventory.length > 0 && <Inventory items={inventory} />}
      {differing.length > 0 && (
        <section class="differing" aria-labelledby="differing">
          <h2 id="differing">{words.differ}</h2>
          <p>{words.differIntro}</p>
          {toDecide.length > 1 && (
            <p class="row">
              <button type="button" onClick={() => takeAll('mine')}>
                {words.allMine}
              </button>
              <button type="button" onClick={() => takeAll('theirs')}>
                {words.allTheirs}
              </button>
            </p>
          )}
          {differing.map((item) => (
            <Difference
              key={itemKey(item)}
              item={item}
              burnTitle={burns.find(({ id }) => id === item.burnId)?.name}
              taken={taken[itemKey(item)]}
              onTake={(choice) => staged.update({ taken: { ...taken, [itemKey(item)]: choice } })}
            />
          ))}
        </section>
      )}
      <FileEnd
        staged={staged}
        saveLabel={isAllHere ? undefined : translateImport().save}
        problem={tried.value && undecided.length > 0 ? words.undecided({ count: undecided.length }) : undefined}
      />
    </form>
  );
}

function Inventory({ items }: { items: readonly ImportItem[] }): VNode {
  const words = translateImport().merge;
  const same = items.filter(({ state }) => state === 'same');
  return (
    <section aria-labelledby="brought-shelf">
      <h2 id="brought-shelf">{words.inventory}</h2>
      <ul class="brought">
        {items
          .filter(({ state }) => state !== 'same')
          .map((item) => (
            <li key={itemKey(item)}>
              <span>
                {translateImport().kinds[item.kind]} <b>{item.name}</b>
              </span>
              <State state={item.state} />
            </li>
          ))}
      </ul>
      {same.length > 0 && (
        <p class="quiet parts">{words.part({ state: words.states.same, things: thingsWords(same) })}</p>
      )}
    </section>
  );
}

function BurnLine({ burn, items }: { burn: ImportItem; items: readonly ImportItem[] }): VNode {
  const words = translateImport().merge;
  const parts = (['new', 'differs', 'same'] as const).flatMap((state) => {
    const of = items.filter((item) => item.state === state);
    return of.length === 0 ? [] : [words.part({ state: words.states[state], things: thingsWords(of) })];
  });
  return (
    <li>
      <span>
        {burn.state === 'new' ? <b>{burn.name}</b> : <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.name}</a>}
        <span class="quiet parts">{parts.join(' · ')}</span>
      </span>
      <State state={burn.state} />
    </li>
  );
}

function State({ state }: { state: ImportItem['state'] }): VNode {
  return <span class={`state ${state}`}>{translateImport().merge.states[state]}</span>;
}
