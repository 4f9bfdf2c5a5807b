/**
 * The burn's own clock as computed on this device.
 * The service publishes the elapsed time of the burn at intervals; in between it is extrapolated with this device's
 * clock. Only differences of the device's clock are used, so it may be wrong by years.
 */
export interface ClockAnchor {
  readonly elapsedUs: number;
  readonly deviceMs: number;
  /** Burn seconds that pass in one device second; 1 except in a demo. */
  readonly timeScale: number;
}

/** Elapsed time of the burn at a moment of the device's clock, in whole microseconds. */
export function elapsedUsAt(anchor: ClockAnchor, deviceMs: number): number {
  return Math.round(anchor.elapsedUs + (deviceMs - anchor.deviceMs) * 1000 * anchor.timeScale);
}
