import type { Microcontroller, PinDevice } from './microcontroller.ts';

const CONVERSION_US = 100_000;

/** A 24-bit converter with a load cell: data goes low when a conversion is ready, and each clock pulse brings a bit. */
export class LoadCell {
  readonly #chip: Microcontroller;
  readonly #dataPin: number;
  counts = 0;
  connected = true;
  #left = 0;
  #shift = 0;
  #readyUs = 0;

  constructor(chip: Microcontroller, dataPin: number, clockPin: number) {
    this.#chip = chip;
    this.#dataPin = dataPin;
    const clock: PinDevice = { pin: clockPin, changed: (driven) => this.#clocked(driven) };
    chip.pinDevices.push(clock);
    this.tick();
  }

  /** Checks whether a conversion has become ready; must be called before the board reads. */
  tick(): void {
    const ready = this.connected && this.#left === 0 && this.#chip.timeUs >= this.#readyUs;
    if (ready) this.#left = 25;
    // Until the first clock pulse each conversion replaces the one before it.
    if (this.#left === 25) this.#shift = this.counts & 0xffffff;
    if (!this.connected) this.#left = 0;
    this.#chip.setLevel(this.#dataPin, this.#left !== 25);
  }

  #clocked(driven: boolean | null): void {
    if (driven !== true || this.#left === 0) return;
    this.#left--;
    this.#chip.setLevel(this.#dataPin, this.#left === 0 || ((this.#shift >> (this.#left - 1)) & 1) === 1);
    if (this.#left === 0) this.#readyUs = this.#chip.timeUs + CONVERSION_US;
  }
}
