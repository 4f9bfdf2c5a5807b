/** The signs of marks on their track: a bar is wood, a small triangle a poke, a roof the lid, a ring anything else. */
import type { MarkProperties } from '../contract/mark-kinds.ts';
import type { CurveStyle } from './curve-styles.ts';
import type { Ink } from './inks.ts';
import type { Point, Shape } from './shapes.ts';

/** Width of a sign, and the distance between signs of one minute. */
export const markStep = 9;

export interface MarkSign {
  readonly sign: MarkProperties['sign'];
  /** Whether the lid is on; it is then drawn lower. */
  readonly isLidOn?: boolean;
  /** Height of a bar; undefined where the wood was not weighed. */
  readonly bar?: number | undefined;
  /**
   * Drawn hollow: the mass in the fire is not certain, because it is not weighed, taken out again, or not confirmed
   * yet.
   */
  readonly isHollow?: boolean;
}

const pen = (ink: Ink): CurveStyle => ({ ink, dash: [], width: 1.5 });
const barHalf = 2.5;
const unweighedBar = 9;
const ringRadius = 3;

/** Returns the shapes of a sign at `x` on its track. */
export function markShapes({ sign, isLidOn = false, bar, isHollow = false }: MarkSign, [x, ground]: Point): Shape[] {
  const line = (ink: Ink, ...points: Point[]): Shape => ({ kind: 'line', points, style: pen(ink) });
  /** With a filled background, so that the track is not visible through it. */
  const outline = (...points: [Point, ...Point[]]): Shape[] => [
    { kind: 'area', points, ink: 'background' },
    line('ink', ...points, points[0]),
  ];
  switch (sign) {
    case 'wood':
    case 'woodOut': {
      const top = ground - (bar === undefined ? unweighedBar : Math.max(3, bar));
      const corners: [Point, ...Point[]] = [
        [x - barHalf, ground],
        [x - barHalf, top],
        [x + barHalf, top],
        [x + barHalf, ground],
      ];
      if (bar === undefined || isHollow || sign === 'woodOut') return [line('ember', ...corners, corners[0])];
      return [{ kind: 'area', points: corners, ink: 'ember' }];
    }
    case 'triangle':
      return outline([x - 4, ground], [x, ground - 8.5], [x + 4, ground]);
    case 'lid': {
      const rim = ground - (isLidOn ? 3 : 9);
      return [line('ink', [x - 5, rim], [x + 5, rim]), line('ink', [x, rim], [x, rim - 3])];
    }
    case 'line':
      return [line('ink', [x, ground], [x, ground - 24])];
    case 'ring':
      return outline(...circle([x, ground - 5], ringRadius));
  }
}

/** A polygon with enough corners to look round at the size of a sign. */
function circle([x, y]: Point, radius: number): [Point, ...Point[]] {
  const corner = (index: number): Point => {
    const angle = (index / 20) * 2 * Math.PI;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  };
  return [corner(0), ...Array.from({ length: 19 }, (_, index) => corner(index + 1))];
}
