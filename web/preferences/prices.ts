/** Prices as typed, stored in this browser only. */
import { computed } from '@preact/signals';
import { remembered } from './preferences.ts';

export interface TypedPrices {
  readonly currency: string;
  readonly wood: string;
  readonly batches: string;
  readonly gas: string;
  readonly gasKind: 'bottledMixture' | 'propane' | 'butane';
  readonly gasEfficiency: string;
  readonly electricity: string;
  readonly electricityEfficiency: string;
}

const none: TypedPrices = {
  currency: '',
  wood: '',
  batches: '',
  gas: '',
  gasKind: 'bottledMixture',
  gasEfficiency: '50',
  electricity: '',
  electricityEfficiency: '85',
};

const stored = remembered<string>('prices', '');

export const prices = computed<TypedPrices>(() => {
  try {
    return { ...none, ...(JSON.parse(stored.value || '{}') as Partial<TypedPrices>) };
  } catch {
    return none;
  }
});

export function setPrices(changed: Partial<TypedPrices>): void {
  stored.value = JSON.stringify({ ...prices.value, ...changed });
}
