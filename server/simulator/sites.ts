/** Temperatures a probe can be put at, °C, and the flue's oxygen, %. */
export interface Sites {
  waterLow: number;
  waterHigh: number;
  contentCore: number;
  flue: number;
  riser: number;
  airGap: number;
  body: number;
  ambient: number;
  coldJunction: number;
  oxygen: number;
}
export type Site = keyof Sites;
