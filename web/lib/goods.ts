/** Goods heated with the water, as typed; figures stay text until the burn is sent. */
import type { Content } from '../../shared/contract/burn-record.ts';

export interface GoodsDraft {
  readonly id: string;
  readonly name: string;
  readonly mass: string;
  /** J/(g K): the figure of handbooks; water is 4.19. */
  readonly specificHeat: string;
  readonly startTemp: string;
  /** What the form does not ask and must not lose. */
  readonly rest: Partial<Content>;
}

export function goodsDraft(
  { id, name, massKg, specificHeatJPerKgK, startTempC, ...rest }: Content,
  write: { mass(kg: number): string; heat(jPerGK: number): string; temp(tempC: number): string },
): GoodsDraft {
  return {
    id,
    name,
    mass: write.mass(massKg),
    specificHeat: write.heat(specificHeatJPerKgK / 1000),
    startTemp: startTempC === undefined ? '' : write.temp(startTempC),
    rest,
  };
}
