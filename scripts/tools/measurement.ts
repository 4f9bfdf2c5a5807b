/**
 * The measurement of a module of scripts/benchmark: our cost compared with that of the minimum that any program would
 * have to do for the same job, measured in the same run. Times on one machine differ by a quarter from run to run;
 * their ratio does not.
 */
export type Measurement = {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** The floor's own value, in the same unit. */
  readonly floor: number;
  /** The work measured as the floor, in words. */
  readonly floorName: string;
  /** value / floor. */
  readonly ratio: number;
};

/** Default export of a module of scripts/benchmark. */
export type Benchmark = () => Promise<readonly Measurement[]> | readonly Measurement[];
