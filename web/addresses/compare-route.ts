/** Addresses of the comparing screens: which burns are compared, and the options that change the result. */

import type { BurnRecord } from '../../shared/contract/burn-record.ts';

type PrimaryResult = BurnRecord['primaryResult'];

export const blockChoices = ['none', 'day', 'lot'] as const;

/** Options of a comparison. Default values are omitted from the address. */
export interface CompareOptions {
  readonly blocks: (typeof blockChoices)[number];
  /** Whether known differences of load, start and air are adjusted to common conditions. */
  readonly adjust: boolean;
  /** Another result than the one chosen before the burns. */
  readonly primary?: PrimaryResult;
}

export const usualOptions: CompareOptions = { blocks: 'none', adjust: true };

export type CompareRoute =
  | { show: 'start' }
  | { show: 'byHand' }
  /** All burns of one revision against all of another, including those still to come. */
  | { show: 'revisions'; a: string; b: string; options: CompareOptions }
  | { show: 'burns'; a: readonly string[]; b: readonly string[]; options: CompareOptions }
  | { show: 'level' | 'cost' | 'design'; stove?: string }
  | { show: 'load'; revision?: string };

export type AskedComparison = Extract<CompareRoute, { show: 'revisions' | 'burns' }>;

/** @param parts of the address after `compare`; undefined when they name no screen */
export function parseCompare(parts: readonly string[]): CompareRoute | undefined {
  const [show, a, rest] = parts;
  const [b, query] = (rest ?? '').split('?');
  switch (show) {
    case undefined:
      return { show: 'start' };
    case 'by-hand':
      return { show: 'byHand' };
    case 'revisions':
      return a && b ? { show, a, b, options: readOptions(query) } : undefined;
    case 'burns':
      return a && b ? { show, a: a.split(','), b: b.split(','), options: readOptions(query) } : undefined;
    case 'level':
    case 'cost':
    case 'design':
      return { show, ...(a && { stove: a }) };
    case 'load':
      return { show, ...(a && { revision: a }) };
    default:
      return undefined;
  }
}

export function compareHash(route: CompareRoute): string {
  const join = (...parts: readonly (string | undefined)[]) =>
    ['#/compare', ...parts.filter((part) => part !== undefined)].join('/');
  switch (route.show) {
    case 'start':
      return join();
    case 'byHand':
      return join('by-hand');
    case 'revisions':
      return join(route.show, route.a, route.b) + writeOptions(route.options);
    case 'burns':
      return join(route.show, route.a.join(','), route.b.join(',')) + writeOptions(route.options);
    case 'load':
      return join(route.show, route.revision);
    default:
      return join(route.show, route.stove);
  }
}

function readOptions(query: string | undefined): CompareOptions {
  const asked = new URLSearchParams(query ?? '');
  // An address may contain any text; the service refuses a name that is no primary result.
  const primary = asked.get('primary') as PrimaryResult | null;
  return {
    blocks: blockChoices.find((kind) => kind === asked.get('blocks')) ?? 'none',
    adjust: asked.get('adjust') !== 'no',
    ...(primary && { primary }),
  };
}

function writeOptions({ blocks, adjust, primary }: CompareOptions): string {
  const query = new URLSearchParams({
    ...(blocks !== 'none' && { blocks }),
    ...(!adjust && { adjust: 'no' }),
    ...(primary && { primary }),
  }).toString();
  return query && `?${query}`;
}
