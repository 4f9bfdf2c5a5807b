/** What the fields of a burn's description are called, and what stands in one, as a person reads it. */
import type { BurnDraft } from '../../lib/burn-draft.ts';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { type Shelves, shelves } from '../../state/inventory.ts';
import { nameOf } from './inventory.tsx';

export function burnFieldLabel(key: keyof BurnDraft): string {
  const words = translate().describe;
  const labels: { readonly [K in keyof BurnDraft]: string } = {
    title: words.title,
    revisionId: `${words.stove}, ${words.revision.toLowerCase()}`,
    vesselId: words.vessel,
    placeId: words.place,
    scaleId: words.scale,
    fuelLotIds: words.lots,
    targetKind: words.target,
    targetTemp: words.targetTemp,
    holdMinutes: words.holdMinutes,
    onDrop: words.onDrop,
    primaryResult: words.primary,
    startKind: words.startKind,
    operator: words.operator,
    airTemp: words.airTemp,
    bodyTemp: words.bodyTemp,
    pressure: words.pressureToday,
    weather: words.weather,
    water: words.water,
    waterTemp: words.waterTemp,
    piles: words.pile,
    goods: words.contents,
  };
  return labels[key];
}

/** @param value empty for what is not said */
export function burnValueText<K extends keyof BurnDraft>(key: K, value: BurnDraft[K]): string {
  const words = translate().describe;
  if (value === '') return '';
  switch (key) {
    case 'revisionId':
      return onInventory('revisions', value as string);
    case 'vesselId':
      return onInventory('vessels', value as string);
    case 'placeId':
      return onInventory('places', value as string);
    case 'scaleId':
      return onInventory('scales', value as string);
    case 'fuelLotIds':
      return (value as BurnDraft['fuelLotIds']).map((id) => onInventory('fuelLots', id)).join(', ');
    case 'targetKind':
      return words[value as BurnDraft['targetKind']];
    case 'onDrop':
      return words[value as BurnDraft['onDrop']];
    case 'primaryResult':
      return words.primaries[value as BurnDraft['primaryResult']];
    case 'startKind':
      return words[value as 'cold' | 'hot'];
    case 'holdMinutes':
      return `${value}\u00a0min`;
    case 'targetTemp':
    case 'airTemp':
    case 'bodyTemp':
      return `${value}\u00a0${unit('temperature')}`;
    case 'pressure':
      return `${value}\u00a0${unit('pressure')}`;
    case 'goods':
      return (value as BurnDraft['goods']).map(({ name, mass }) => `${name} ${mass}\u00a0${unit('mass')}`).join(', ');
    case 'piles':
      return Object.values(value as BurnDraft['piles'])
        .filter((mass) => mass !== '')
        .map((mass) => `${mass}\u00a0${unit('mass')}`)
        .join(', ');
    default:
      return String(value);
  }
}

function onInventory(kind: keyof Shelves, id: string): string {
  const item = shelves.value?.[kind].find((each) => each.id === id);
  return item ? nameOf(item) : id;
}
