import type { Microcontroller, SpiDevice } from './microcontroller.ts';

/** Registers after power-on (from memory of the data sheet). */
const AT_POWER_ON = [0x00, 0x03, 0xff, 0x7f, 0xc0, 0x7f, 0xff, 0x80, 0, 0, 0, 0, 0, 0, 0, 0];
const CR0 = 0;
const CR1 = 1;
const COLD_HIGH = 0x0a;
const HOT_HIGH = 0x0c;
const STATUS = 0x0f;
const CONTINUOUS = 0x80;
/** Duration of the first conversion after the command, and of each further one. */
const FIRST_US = 190_000;
const FURTHER_US = 110_000;

export type Amplifier19Fault = 'open' | 'voltage' | 'hot-range' | 'cold-range';
const FAULT_BITS: Record<Amplifier19Fault, number> = {
  open: 0x01,
  voltage: 0x02,
  'hot-range': 0x40,
  'cold-range': 0x80,
};

/**
 * A thermocouple amplifier of the 19-bit kind by its registers (map from memory of the data sheet): linearised degrees
 * in 1/128 K, cold junction in 1/64 K, faults, and zeros between configuration and the first conversion.
 */
export class Amplifier19 implements SpiDevice {
  readonly selectPin: number;
  readonly #chip: Microcontroller;
  hotC = 20;
  coldC = 20;
  fault: Amplifier19Fault | null = null;
  powered = true;
  /** Mask of the wrong bits in the next byte read. */
  glitch = 0;
  registers = Uint8Array.from(AT_POWER_ON);
  #address: number | null = null;
  #writing = false;
  #converted = 0;
  #nextUs = Number.POSITIVE_INFINITY;

  constructor(chip: Microcontroller, selectPin: number) {
    this.#chip = chip;
    this.selectPin = selectPin;
    chip.spiDevices.push(this);
  }

  /** A dip of its supply, too short for the microcontroller to notice: it loses its configuration. */
  brownOut(): void {
    this.registers = Uint8Array.from(AT_POWER_ON);
    this.#nextUs = Number.POSITIVE_INFINITY;
  }

  /** The configured thermocouple type. */
  get type(): string {
    return 'BEJKNRST'[this.registers[CR1]! & 15] ?? '?';
  }

  /** Conversions since the last configuration. */
  get converted(): number {
    return this.#converted;
  }

  select(): void {
    this.#address = null;
    while (this.#nextUs <= this.#chip.timeUs) {
      this.#convert();
      this.#nextUs += FURTHER_US;
    }
  }

  exchange(sent: number, phase: 0 | 1): number {
    // It supports clock phase 1 only, and does nothing without supply.
    if (!this.powered || phase !== 1) return 0xff;
    if (this.#address === null) {
      this.#address = sent & 0x0f;
      this.#writing = (sent & 0x80) !== 0;
      return 0xff;
    }
    const address = this.#address;
    this.#address = (address + 1) & 0x0f;
    if (!this.#writing) {
      const byte = this.registers[address]! ^ this.glitch;
      this.glitch = 0;
      return byte;
    }
    const wasConverting = this.registers[CR0]! & CONTINUOUS;
    if (address < HOT_HIGH - 2) this.registers[address] = sent;
    const converts = this.registers[CR0]! & CONTINUOUS;
    if (converts && !wasConverting) {
      this.#nextUs = this.#chip.timeUs + FIRST_US;
      this.#converted = 0;
    }
    if (!converts) this.#nextUs = Number.POSITIVE_INFINITY;
    return 0xff;
  }

  deselect(): void {}

  #convert(): void {
    this.#converted++;
    const hot = Math.round(this.hotC * 128) << 13;
    const cold = Math.round(this.coldC * 64) << 2;
    this.registers.set([(hot >>> 24) & 0xff, (hot >>> 16) & 0xff, (hot >>> 8) & 0xff], HOT_HIGH);
    this.registers.set([(cold >>> 8) & 0xff, cold & 0xff], COLD_HIGH);
    this.registers[STATUS] = this.fault ? FAULT_BITS[this.fault] : 0;
  }
}
