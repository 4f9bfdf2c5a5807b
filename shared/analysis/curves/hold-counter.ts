/**
 * The hold rule as a counter that receives one temperature after another; the live page and the analysis of a finished
 * burn both use it. At the boil the floor is T_b − 2 K; a drop counts after 60 s below it and is over half a kelvin
 * above it (bench-1 definition).
 */

export interface HoldRule {
  /** Least temperature of the hold, °C. */
  readonly floorC: number;
  /** Time to hold, s; Infinity when no end was set. */
  readonly neededS: number;
  readonly onDrop: 'restart' | 'pause';
}

export type HoldState = 'notYet' | 'counting' | 'dropped' | 'paused' | 'done';

export const HOLD_BELOW_BOIL_K = 2;
export const HOLD_HYSTERESIS_K = 0.5;
export const DROP_COUNTS_AFTER_S = 60;

/** A class, not closures: the analysis of one burn counts many floors over ten thousand readings each. */
export class HoldCounter {
  state: HoldState = 'notYet';
  countedS = 0;
  /** Time below the floor in drops that count, s. */
  belowS = 0;
  /** When the count was complete, s; `undefined` before. */
  doneS: number | undefined;
  private readonly rule: HoldRule;
  private readonly startS: number;
  private readonly bridgeS: number;
  /** NaN while the water is not below the floor. */
  private belowSinceS = Number.NaN;
  private lastS: number;

  constructor(rule: HoldRule, startS: number, bridgeS: number) {
    this.rule = rule;
    this.startS = startS;
    this.bridgeS = bridgeS;
    this.lastS = startS;
  }

  /**
   * Adds a temperature. It stands for the time until the next one, but for no longer than `bridgeS`: time in a gap is
   * not counted.
   * @param isPaused pot off, goods just put in, no trusted probe: the count waits
   */
  see(elapsedS: number, tempC: number, isPaused: boolean = false): void {
    if (elapsedS < this.startS || this.state === 'done') return;
    const stepS = elapsedS - this.lastS;
    this.lastS = elapsedS;
    if (isPaused || Number.isNaN(tempC)) {
      if (this.state !== 'notYet') this.state = 'paused';
      this.belowSinceS = Number.NaN;
      return;
    }
    if (stepS > this.bridgeS && this.state === 'counting') {
      this.belowSinceS = Number.NaN;
      return;
    }
    const { floorC } = this.rule;
    const isBelow = tempC < floorC;
    if (this.state === 'counting') {
      if (!isBelow) {
        this.belowSinceS = Number.NaN;
        this.count(elapsedS, stepS);
        return;
      }
      if (Number.isNaN(this.belowSinceS)) this.belowSinceS = elapsedS;
      this.countedS += stepS;
      if (elapsedS - this.belowSinceS >= DROP_COUNTS_AFTER_S) this.drop(elapsedS);
    } else if (this.state === 'dropped') {
      if (tempC >= floorC + HOLD_HYSTERESIS_K) {
        this.state = 'counting';
        this.belowSinceS = Number.NaN;
      } else {
        this.belowS += stepS;
      }
    } else if (!isBelow) {
      const isFirst = this.state === 'notYet';
      this.state = 'counting';
      if (isFirst && stepS <= this.bridgeS) this.count(elapsedS, stepS);
    } else if (this.state === 'paused') {
      this.belowSinceS = elapsedS;
      this.state = 'dropped';
    }
  }

  private drop(elapsedS: number): void {
    const lostS = elapsedS - this.belowSinceS;
    this.state = 'dropped';
    this.belowS += lostS;
    // The minute before the drop counted was not a hold either.
    this.countedS = this.rule.onDrop === 'restart' ? 0 : Math.max(0, this.countedS - lostS);
  }

  private count(elapsedS: number, stepS: number): void {
    const { neededS } = this.rule;
    this.countedS += stepS;
    if (this.countedS < neededS) return;
    this.doneS = elapsedS - (this.countedS - neededS);
    this.countedS = neededS;
    this.state = 'done';
  }
}
