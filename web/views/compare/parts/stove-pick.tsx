import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { type CompareRoute, compareHash } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import type { Inventory } from '../../../state/inventory.ts';
import { SelectField } from '../../forms/field.tsx';
import { inTime } from './sides.ts';

export interface StoveBurns {
  readonly id: string;
  readonly name: string;
  /** Begun at least, oldest first. */
  readonly burns: readonly BurnSummary[];
}

/** The properties of a screen about one stove. */
export interface StoveScreen {
  stoves: readonly StoveBurns[];
  stove: StoveBurns;
  inventory: Inventory;
}

/** Stoves with burns, the one with most burns first. */
export function stovesOf(all: readonly BurnSummary[]): StoveBurns[] {
  const found = new Map<string, { id: string; name: string; burns: BurnSummary[] }>();
  for (const burn of inTime(all.filter(({ status }) => status !== 'planned'))) {
    if (!burn.stove) continue;
    const stove = found.get(burn.stove.id) ?? { ...burn.stove, burns: [] };
    stove.burns.push(burn);
    found.set(stove.id, stove);
  }
  return [...found.values()].sort((x, y) => y.burns.length - x.burns.length);
}

/** Chooses the stove; each choice has an address of its own. Renders nothing where there is only one. */
export function StovePick({
  show,
  stoves,
  chosen,
}: {
  show: 'level' | 'cost' | 'design';
  stoves: readonly StoveBurns[];
  chosen: StoveBurns;
}): VNode | null {
  if (stoves.length < 2) return null;
  return (
    <SelectField
      label={translateCompare().stove}
      value={chosen.id}
      options={stoves.map(({ id, name }) => [id, name] as const)}
      onChange={(id) => {
        location.hash = compareHash({ show, stove: id } satisfies CompareRoute);
      }}
    />
  );
}

/** Revisions of a stove in the order of their first burns, each with its burns. */
export function revisionsIn({ burns }: StoveBurns): { id: string; label: string; burns: BurnSummary[] }[] {
  const found = new Map<string, { id: string; label: string; burns: BurnSummary[] }>();
  for (const burn of burns) {
    if (!burn.revision) continue;
    const revision = found.get(burn.revision.id) ?? { ...burn.revision, burns: [] };
    revision.burns.push(burn);
    found.set(revision.id, revision);
  }
  return [...found.values()];
}
