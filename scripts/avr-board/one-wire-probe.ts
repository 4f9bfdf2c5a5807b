import type { Microcontroller, PinDevice } from './microcontroller.ts';

/** Lengths in microseconds (from memory of the data sheet): a longer pulse is a reset, a shorter one a one. */
const RESET_US = 400;
const ONE_US = 15;
const ANSWER_US = 30;
const PRESENCE_US = 120;
const CONVERSION_US = 750_000;

const SKIP_ROM = 0xcc;
const CONVERT = 0x44;
const READ_MEMORY = 0xbe;
const WRITE_MEMORY = 0x4e;

/** A digital probe of the one-wire bus, simulated by its time slots and its memory of nine bytes. */
export class OneWireProbe implements PinDevice {
  readonly pin: number;
  readonly #chip: Microcontroller;
  tempC = 20;
  connected = true;
  /** Mask of the wrong bits in the next read of the memory. */
  glitch = 0;
  #memory = Uint8Array.of(0x50, 0x05, 0x4b, 0x46, 0x7f, 0xff, 0x0c, 0x10, 0);
  #lowSinceUs: number | null = null;
  #convertedUs = Number.POSITIVE_INFINITY;
  #toSend: number[] = [];
  #bits = 0;
  #byte = 0;
  #heard: number[] = [];

  constructor(chip: Microcontroller, pin: number) {
    this.#chip = chip;
    this.pin = pin;
    chip.pinDevices.push(this);
    chip.setLevel(pin, true);
  }

  /** Interrupts its supply for a moment: alarm bytes as delivered, and 85 °C. */
  brownOut(): void {
    this.#memory = Uint8Array.of(0x50, 0x05, 0x4b, 0x46, 0x7f, 0xff, 0x0c, 0x10, 0);
    this.#convertedUs = Number.POSITIVE_INFINITY;
  }

  changed(driven: boolean | null): void {
    const nowUs = this.#chip.timeUs;
    if (driven === false) {
      this.#lowSinceUs = nowUs;
      if (this.connected && this.#toSend.length > 0) this.#sendBit();
      return;
    }
    if (this.#lowSinceUs === null) return;
    const lowUs = nowUs - this.#lowSinceUs;
    this.#lowSinceUs = null;
    if (!this.connected) return;
    if (lowUs > RESET_US) this.#reset();
    else if (this.#reading) this.#reading = this.#toSend.length > 0;
    else this.#hearBit(lowUs < ONE_US ? 1 : 0);
  }

  #reading = false;

  #reset(): void {
    this.#toSend = [];
    this.#reading = false;
    this.#bits = 0;
    this.#heard = [];
    this.#chip.after(ANSWER_US, () => this.#chip.setLevel(this.pin, false));
    this.#chip.after(ANSWER_US + PRESENCE_US, () => this.#chip.setLevel(this.pin, true));
  }

  #sendBit(): void {
    const bit = this.#toSend.shift()!;
    this.#reading = true;
    if (bit === 1) return;
    this.#chip.setLevel(this.pin, false);
    this.#chip.after(ANSWER_US, () => this.#chip.setLevel(this.pin, true));
  }

  #hearBit(bit: number): void {
    this.#byte = (this.#byte >> 1) | (bit << 7);
    if (++this.#bits < 8) return;
    this.#bits = 0;
    this.#heard.push(this.#byte);
    const [rom, command, ...values] = this.#heard;
    if (rom !== SKIP_ROM) return;
    if (command === CONVERT) this.#convertedUs = this.#chip.timeUs + CONVERSION_US;
    if (command === WRITE_MEMORY && values.length === 3) this.#memory.set(values, 2);
    if (command === READ_MEMORY) this.#toSend = this.#memoryBits();
  }

  #memoryBits(): number[] {
    if (this.#chip.timeUs >= this.#convertedUs) {
      const reading = Math.round(this.tempC * 16);
      this.#memory.set([reading & 0xff, (reading >> 8) & 0xff], 0);
    }
    this.#memory[8] = crc8(this.#memory.subarray(0, 8));
    const bytes = Uint8Array.from(this.#memory);
    bytes[0]! ^= this.glitch;
    this.glitch = 0;
    return [...bytes].flatMap((byte) => Array.from({ length: 8 }, (_, bit) => (byte >> bit) & 1));
  }
}

/** CRC-8 with the polynomial x^8 + x^5 + x^4 + 1, least significant bit first. */
function crc8(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    for (let bit = 0; bit < 8; bit++) crc = ((crc ^ (byte >> bit)) & 1) === 1 ? (crc >> 1) ^ 0x8c : crc >> 1;
  }
  return crc;
}
