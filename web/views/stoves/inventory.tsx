/** The inventory by kind, with buttons to add and edit. */
import type { VNode } from 'preact';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import type { Moisture } from '../../../shared/contract/moisture.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { percent, text } from '../../language/figures.ts';
import { currentInventory, inventoryKinds, loadInventory } from '../../state/inventory.ts';
import { Fetching } from '../kit/fetching.tsx';
import { useLoad } from '../kit/use-load.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { InventoryForm } from './inventory-form.tsx';
import { nameOf } from './inventory-names.ts';
import { RevisionDifferences } from './revision-differences.tsx';

export function Inventory({ kind }: { kind: string | undefined }): VNode {
  const loading = useLoad('inventory', loadInventory);
  const sheet = useOpenSheet('shelf');
  const words = translate().describe.inventory;
  const all = currentInventory.value;
  if (!all) return <Fetching of={loading} />;
  const shown = inventoryKinds.includes(kind as InventoryKind) ? [kind as InventoryKind] : inventoryKinds;
  const [openKind, openId] = sheet.which.split(' ') as [InventoryKind | '', string?];
  const known = openKind && (all[openKind] as readonly InventoryItem<InventoryKind>[]).find(({ id }) => id === openId);
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">{words.intro}</p>
      </header>
      <div class="inventory-kinds">
        {shown.map((each) => (
          <section key={each}>
            <h2>
              <a href={routeHash(kind === each ? { at: 'shelf' } : { at: 'shelf', kind: each })}>{words.kinds[each]}</a>
            </h2>
            <ul class="shelf-list">
              {(all[each] as readonly InventoryItem<InventoryKind>[]).map((item) => (
                <li key={item.id}>
                  <button type="button" class="inventory-item" onClick={() => sheet.show(`${each} ${item.id}`)}>
                    <span class="unseen">{words.editIt}</span> <b>{nameOf(item)}</b>{' '}
                    <span class="quiet">{factsOf(item)}</span>
                  </button>
                  {each === 'revisions' && <RevisionDifferences revision={item as InventoryItem<'revisions'>} />}
                </li>
              ))}
              {all[each].length === 0 && <li class="quiet">{words.empty}</li>}
            </ul>
            {each === 'revisions' && all.stoves.length === 0 ? (
              <p class="quiet">{words.needStove}</p>
            ) : (
              <button type="button" onClick={() => sheet.show(each)}>
                {words.addOne({ what: words.one[each] })}
              </button>
            )}
          </section>
        ))}
      </div>
      {openKind && (
        <Sheet
          title={known ? words.edit({ name: nameOf(known) }) : words.addOne({ what: words.one[openKind] })}
          onClose={sheet.close}
        >
          <InventoryForm
            kind={openKind}
            item={known || undefined}
            preset={known ? {} : onlyStove(openKind)}
            onSaved={sheet.close}
          />
        </Sheet>
      )}
    </div>
  );
}

/** With one stove there is nothing to choose. */
function onlyStove(kind: InventoryKind): { stoveId?: string } {
  const [first, second] = currentInventory.value?.stoves ?? [];
  return kind === 'revisions' && first && !second ? { stoveId: first.id } : {};
}

/** "20.0 %", or "20.0 % ± 0.6 %" where the readings give its uncertainty. */
function moistureText({ fraction, standardUncertainty }: Moisture): string {
  const mean = percent(fraction);
  return standardUncertainty === undefined ? mean : `${mean} ±\u202f${percent(standardUncertainty)}`;
}

function factsOf(item: InventoryItem<InventoryKind>): string {
  const words = translate().describe.fields;
  const facts: (string | undefined)[] = [];
  if ('change' in item) facts.push(item.change);
  if ('moisture' in item && item.moisture)
    facts.push(
      words.moistureFact({
        percent: moistureText(item.moisture),
        basis: words.bases[item.moisture.basis],
        how: words.hows[item.moisture.how],
      }),
    );
  if ('kind' in item) facts.push(words.kinds[item.kind]);
  if ('massKg' in item && item.massKg !== undefined) facts.push(text('mass', item.massKg));
  if ('stationPressurePa' in item && item.stationPressurePa !== undefined)
    facts.push(text('pressure', item.stationPressurePa));
  if ('altitudeM' in item && item.altitudeM !== undefined) facts.push(`${item.altitudeM} m`);
  return facts.filter(Boolean).join(' · ');
}
