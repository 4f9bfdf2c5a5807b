/**
 * Computes areas and their ratios from the dimensions of a revision, to be plotted against results. Their meaning for
 * the fire is left to the builder.
 *
 * Dimensions have free names. A name that ends in "diameter" (or begins with "diamètre") is a circle; "… width" with "…
 * height" of the same thing ("largeur", "hauteur") is a rectangle; a "… gap" around a vessel of known diameter is a
 * ring.
 */
import type { Revision } from '../contract/burn-record.ts';
import type { ResultId } from '../contract/results.ts';
import { type BurnDocument, type ComparedBurn, resultOf } from './compared-burn.ts';

export interface DesignFigure {
  name: string;
  value: number;
  unit: 'm2' | '1';
}

const DIAMETER = /^(?:(.*?)\s+(?:inner |inside )?diameter|diamètre(?: intérieur)?\s+(.*\S))$/i;
const WIDTH = /^(?:(.*\S)\s+width|largeur\s+(.*\S))$/i;
const HEIGHT = /^(?:(.*\S)\s+height|hauteur\s+(.*\S))$/i;
const GAP = /^(?:(.*\S)\s+gap|jeu\s+(.*\S))$/i;

/** Groups the dimensions by the part they belong to: diameter or width, height, and gap around the pot. */
export function partsOf(dimensionsM: Readonly<Record<string, number>>): {
  acrossM: Map<string, number>;
  upM: Map<string, number>;
  gapM: number | undefined;
} {
  const lengths = Object.entries(dimensionsM);
  const of = (pattern: RegExp) =>
    lengths.flatMap(([name, lengthM]) => {
      const found = pattern.exec(name.trim());
      const part = found?.[1] ?? found?.[2];
      return part === undefined ? [] : [[part, lengthM] as const];
    });
  return {
    acrossM: new Map([...of(WIDTH), ...of(DIAMETER)]),
    upM: new Map(of(HEIGHT)),
    gapM: lengths.find(([name]) => /(?:^|\s)(?:gap|jeu)(?:\s|$)/i.test(name))?.[1],
  };
}

/**
 * Returns the areas, and the ratio of each to every other.
 * @param vesselDiameterM outer diameter of the vessel, for gaps around it
 */
export function designFigures(
  revision: Pick<Revision, 'dimensionsM' | 'dimensionsM2'>,
  vesselDiameterM?: number,
): DesignFigure[] {
  const lengths = Object.entries(revision.dimensionsM ?? {});
  const partOf = (name: string, pattern: RegExp) => {
    const found = pattern.exec(name);
    return found?.[1] ?? found?.[2];
  };
  const heights = new Map(lengths.flatMap(([name, m]) => [[partOf(name, HEIGHT), m] as const]));
  const areas = new Map(Object.entries(revision.dimensionsM2 ?? {}));
  for (const [name, lengthM] of lengths) {
    const round = partOf(name, DIAMETER);
    if (round !== undefined) areas.set(round, (Math.PI / 4) * lengthM * lengthM);
    const wide = partOf(name, WIDTH);
    const heightM = wide === undefined ? undefined : heights.get(wide);
    if (wide !== undefined && heightM !== undefined) areas.set(wide, lengthM * heightM);
    if (partOf(name, GAP) !== undefined && vesselDiameterM !== undefined) {
      areas.set(name, Math.PI * (vesselDiameterM + lengthM) * lengthM);
    }
  }
  const list = [...areas];
  const figures = list.map(([name, value]): DesignFigure => ({ name, value, unit: 'm2' }));
  const ratios = list.flatMap(([name, value], index) =>
    list
      .slice(index + 1)
      .map(([other, area]): DesignFigure => ({ name: `${name} / ${other}`, value: value / area, unit: '1' })),
  );
  return [...figures, ...ratios];
}

/** Returns burns as points: a design figure and a result. */
export function figureAgainstResult(
  burns: readonly { burn: Pick<BurnDocument, 'id' | 'revision' | 'vessel'>; analysis: ComparedBurn['analysis'] }[],
  figureName: string,
  id: ResultId,
): { burnId: string; figure: number; value: number }[] {
  return burns.flatMap((compared) => {
    const { burn } = compared;
    const figures = burn.revision ? designFigures(burn.revision, burn.vessel?.innerDiameterM) : [];
    const figure = figures.find(({ name }) => name === figureName);
    const result = resultOf(compared, id);
    return figure && result ? [{ burnId: burn.id, figure: figure.value, value: result.value }] : [];
  });
}
