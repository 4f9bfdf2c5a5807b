import { type ThermocoupleType, thermocoupleMillivolts } from '../../shared/physics/thermocouple.ts';
import type { Microcontroller, SpiDevice } from './microcontroller.ts';

/** Sensitivities in µV/K by which a chip of the 14-bit kind divides (from memory of the data sheet). */
const SENSITIVITY_UV_PER_K: Partial<Record<ThermocoupleType, number>> = {
  K: 41.276,
  J: 57.953,
  N: 36.256,
  T: 52.18,
  E: 76.373,
  S: 9.587,
  R: 10.506,
};
/** It converts ten times a second. */
const CONVERSION_US = 100_000;

export type Amplifier14Fault = 'open' | 'short-to-ground' | 'short-to-supply';
const FAULT_BITS: Record<Amplifier14Fault, number> = { open: 1, 'short-to-ground': 2, 'short-to-supply': 4 };

/**
 * A thermocouple amplifier of the 14-bit kind, by the data sheet's description of the word that it sends (from memory):
 * hot junction in 1/4 K, its own temperature in 1/16 K, fault bits. It does not linearise: it divides the voltage by
 * one sensitivity.
 */
export class Amplifier14 implements SpiDevice {
  readonly selectPin: number;
  readonly #chip: Microcontroller;
  readonly #type: ThermocoupleType;
  hotC = 20;
  coldC = 20;
  fault: Amplifier14Fault | null = null;
  /** Values that it sends instead of measured ones, before rounding to its steps. */
  printed: { hotC: number; coldC: number } | null = null;
  /** Without supply it drives no line. */
  powered = true;
  /** Mask of the wrong bits in the next word. */
  glitch = 0;
  #conversion = -1;
  #latched = 0;
  #shift = 0;

  constructor(chip: Microcontroller, selectPin: number, type: ThermocoupleType) {
    this.#chip = chip;
    this.selectPin = selectPin;
    this.#type = type;
    chip.spiDevices.push(this);
  }

  select(): void {
    const conversion = Math.floor(this.#chip.timeUs / CONVERSION_US);
    if (conversion !== this.#conversion) this.#latched = this.#word();
    this.#conversion = conversion;
    this.#shift = (this.#latched ^ this.glitch) >>> 0;
    this.glitch = 0;
  }

  exchange(): number {
    if (!this.powered) return 0xff;
    const byte = this.#shift >>> 24;
    this.#shift = (this.#shift << 8) >>> 0;
    return byte;
  }

  deselect(): void {}

  #measured(): { hotC: number; coldC: number } {
    const measuredMv = thermocoupleMillivolts(this.#type, this.hotC) - thermocoupleMillivolts(this.#type, this.coldC);
    return { hotC: this.coldC + (measuredMv * 1000) / SENSITIVITY_UV_PER_K[this.#type]!, coldC: this.coldC };
  }

  #word(): number {
    const { hotC, coldC } = this.printed ?? this.#measured();
    const faults = this.fault ? FAULT_BITS[this.fault] | 0x10000 : 0;
    return ((Math.round(hotC * 4) << 18) | ((Math.round(coldC * 16) & 0xfff) << 4) | faults) >>> 0;
  }
}
