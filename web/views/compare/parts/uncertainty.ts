/** The sources of uncertainty of a comparison, in words. */
import { translateCompare, translateResult } from '../../../language/catalogue.ts';
import type { Sides } from './sides.ts';

/** Scatter of one side, or the input whose error the two sides do not share. */
export function sourceName(source: string, sides: Sides): string {
  const words = translateCompare().statistics;
  if (source === 'scatterA') return words.scatter({ side: sides.a.name });
  if (source === 'scatterB') return words.scatter({ side: sides.b.name });
  if (source === 'scatter') return words.scatterOfAll;
  return translateResult().inputName(source);
}
