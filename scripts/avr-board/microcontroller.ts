import {
  AVRADC,
  AVRClock,
  AVREEPROM,
  AVRIOPort,
  AVRSPI,
  AVRTimer,
  AVRUSART,
  AVRWatchdog,
  adcConfig,
  avrInstruction,
  CPU,
  EEPROMMemoryBackend,
  PinState,
  portBConfig,
  portCConfig,
  portDConfig,
  spiConfig,
  timer1Config,
  timer2Config,
  usart0Config,
  watchdogConfig,
} from 'avr8js';
import { selfProgramming } from './self-programming.ts';

export const CYCLES_PER_US = 16;
const FLASH_BYTES = 32 * 1024;
const RAM_BYTES = 2048;
const REGISTER_BYTES = 0x100;
/** RAM may contain anything at power-on; it is filled with this, to detect later which bytes were written. */
const PAINT = 0xa5;
const BOOT_AT = 0x7c00;
const SLEEP = 0x9588;
const SPM = 0x95e8;
const MCUSR = 0x54;
const UCSR0A = 0xc0;
const RECEIVED = 0x80;
/** A byte at 115200 baud. */
const BYTE_CYCLES = 1360;
const SPCR = 0x4c;
/** Flags in MCUSR. */
const RESET_CAUSES = { power: 0x01, external: 0x02, brownOut: 0x04, watchdog: 0x08 } as const;

export type ResetCause = keyof typeof RESET_CAUSES;

interface ClockEvent {
  cycles: number;
  callback: () => void;
  next: ClockEvent | null;
}

/** A device on the SPI bus, selected by a pin that goes low. */
export interface SpiDevice {
  readonly selectPin: number;
  select(): void;
  /** The byte returned while `sent` is sent, in clock phase 0 or 1. */
  exchange(sent: number, phase: 0 | 1): number;
  deselect(): void;
}

/** A device on a pin of its own: notified whenever the firmware changes how it drives the pin. */
export interface PinDevice {
  readonly pin: number;
  /** @param driven what the firmware drives: high, low, or nothing (`null`) */
  changed(driven: boolean | null): void;
}

/**
 * An ATmega328P at 16 MHz in avr8js: program memory and EEPROM are permanent, everything else is created anew at each
 * reset. Sleep is skipped to the next event, so that an idle board is simulated some ten times faster than real time.
 */
export class Microcontroller {
  readonly flash = new Uint16Array(FLASH_BYTES / 2).fill(0xffff);
  readonly eeprom = new EEPROMMemoryBackend(1024);
  /** Whether a reset begins in the boot section, as set by the fuses. */
  bootSection = false;
  /** First byte of the boot section. */
  bootAt = BOOT_AT;
  onByte: (byte: number) => void = () => {};
  /** Volts at A0 to A5. */
  readonly analogueV = [0, 0, 0, 0, 0, 0];
  readonly spiDevices: SpiDevice[] = [];
  readonly pinDevices: PinDevice[] = [];
  /** Transfers that more than one device answered at the same time, or for which none was selected. */
  spiTrouble = { collisions: 0, unheard: 0 };
  resets: ResetCause[] = [];
  #cpu!: CPU;
  #usart!: AVRUSART;
  #timer2!: AVRTimer;
  #spm!: () => void;
  #ports!: { d: AVRIOPort; b: AVRIOPort; c: AVRIOPort };
  #levels = new Map<number, boolean>();
  #toReceive: number[] = [];
  #unreadSince = 0;
  #mend = () => {};
  #pendingReset: ResetCause | null = null;

  constructor() {
    this.#build('power', 0);
  }

  /** Writes a program into flash without a boot loader. */
  load(bytes: Uint8Array, at = 0): void {
    new Uint8Array(this.flash.buffer).set(bytes, at);
  }

  get timeUs(): number {
    return this.#cpu.cycles / CYCLES_PER_US;
  }

  /** The RAM itself, for tests that advance a counter. */
  get ram(): Uint8Array {
    return this.#cpu.data;
  }

  /** Number of bytes of RAM not written since the last reset: what is left between variables and stack. */
  get untouchedBytes(): number {
    return this.ram.subarray(REGISTER_BYTES).filter((byte) => byte === PAINT).length;
  }

  /** Receives bytes from the host, one after the other at the speed of the serial port. */
  receive(bytes: Uint8Array): void {
    this.#toReceive.push(...bytes);
  }

  reset(cause: ResetCause): void {
    this.#build(cause, this.#cpu.cycles);
  }

  /** Makes the program jump to itself forever; the next reset restores the overwritten instruction. */
  hang(): void {
    const at = this.#cpu.pc;
    const instead = this.flash[at]!;
    this.flash[at] = 0xcfff;
    this.#mend = () => {
      this.flash[at] = instead;
    };
  }

  /** Sets the level of a pin that the firmware uses as an input. */
  setLevel(pin: number, level: boolean): void {
    this.#levels.set(pin, level);
    this.#portOf(pin).setPin(bitOf(pin), level);
  }

  /** Calls back after this many microseconds of the chip's own time; cancelled by a reset. */
  after(us: number, fn: () => void): void {
    this.#cpu.addClockEvent(fn, us * CYCLES_PER_US);
  }

  /** Runs until this many microseconds have passed. */
  run(us: number): void {
    const until = this.#cpu.cycles + us * CYCLES_PER_US;
    while (this.#cpu.cycles < until) {
      const cpu = this.#cpu;
      const opcode = cpu.progMem[cpu.pc];
      if (opcode === SLEEP) this.#sleep(until);
      else if (opcode === SPM) this.#spm();
      avrInstruction(cpu);
      cpu.tick();
      if (this.#toReceive.length > 0) this.#arrive();
      if (this.#pendingReset) this.reset(this.#pendingReset);
    }
  }

  /**
   * Delivers the next byte from the host. One byte that is not fetched in time delays one more; those after it are
   * lost.
   */
  #arrive(): void {
    const cpu = this.#cpu;
    if (this.#usart.rxBusy) {
      this.#unreadSince = cpu.cycles;
    } else if (cpu.data[UCSR0A]! & RECEIVED) {
      if (cpu.cycles - this.#unreadSince < BYTE_CYCLES) return;
      this.#unreadSince = cpu.cycles;
      this.#toReceive.splice(1, 1);
    } else if (this.#usart.writeByte(this.#toReceive[0]!) === true) {
      this.#toReceive.shift();
    }
  }

  #sleep(until: number): void {
    const cpu = this.#cpu;
    while (cpu.nextInterrupt < 0 && cpu.cycles < until && !this.#pendingReset && this.#toReceive.length === 0) {
      cpu.cycles = Math.min(until, Math.max(cpu.cycles + 1, this.#nextEvent()));
      // With interrupts disabled for the moment, so that the processor wakes up in the instruction after this one.
      const status = cpu.data[95]!;
      cpu.data[95] = status & 0x7f;
      cpu.tick();
      cpu.data[95] = status;
    }
  }

  /**
   * The cycle of the next event without an instruction. The timer has an event for each count; those up to its compare
   * match are skipped, since it can take several counts at once.
   */
  #nextEvent(): number {
    const { nextClockEvent } = this.#cpu as unknown as { nextClockEvent: ClockEvent | null };
    const timer = this.#timer2 as unknown as { count(): void; tcnt: number; ocrA: number; divider: number };
    if (nextClockEvent?.callback !== timer.count) return nextClockEvent?.cycles ?? Number.POSITIVE_INFINITY;
    const match = nextClockEvent.cycles + Math.max(0, timer.ocrA - timer.tcnt - 1) * timer.divider;
    return Math.min(match, nextClockEvent.next?.cycles ?? match);
  }

  #build(cause: ResetCause, cycles: number): void {
    const cpu = new CPU(this.flash, RAM_BYTES);
    this.#cpu = cpu;
    this.#pendingReset = null;
    this.#mend();
    this.#mend = () => {};
    this.#toReceive = [];
    this.resets.push(cause);
    cpu.cycles = cycles;
    cpu.data.fill(PAINT, REGISTER_BYTES);
    cpu.pc = this.bootSection ? this.bootAt / 2 : 0;
    cpu.data[MCUSR] = RESET_CAUSES[cause];
    const clock = new AVRClock(cpu, CYCLES_PER_US * 1e6);
    new AVRTimer(cpu, timer1Config);
    this.#timer2 = new AVRTimer(cpu, timer2Config);
    new AVRWatchdog(cpu, watchdogConfig, clock);
    // avr8js itself would continue with the events from before: here a reset creates everything anew.
    cpu.reset = () => {
      this.#pendingReset = 'watchdog';
    };
    new AVREEPROM(cpu, this.eeprom);
    const adc = new AVRADC(cpu, adcConfig);
    adc.channelValues.splice(0, 6, ...this.analogueV);
    adc.onADCRead = (input) => {
      const channel = 'channel' in input ? input.channel : 0;
      cpu.addClockEvent(
        () => adc.completeADCRead(Math.min(1023, Math.round((this.analogueV[channel]! / 5) * 1024))),
        208,
      );
    };
    this.#usart = new AVRUSART(cpu, usart0Config, CYCLES_PER_US * 1e6);
    this.#usart.onByteTransmit = (byte) => this.onByte(byte);
    const programming = selfProgramming(cpu, this.bootAt);
    this.#spm = programming.spm;
    this.#ports = {
      d: new AVRIOPort(cpu, portDConfig),
      b: new AVRIOPort(cpu, portBConfig),
      c: new AVRIOPort(cpu, portCConfig),
    };
    for (const [pin, level] of this.#levels) this.#portOf(pin).setPin(bitOf(pin), level);
    this.#connectSpi(cpu);
    for (const port of Object.values(this.#ports)) port.addListener(() => this.#pinsChanged());
    this.#pinsChanged();
  }

  #connectSpi(cpu: CPU): void {
    const spi = new AVRSPI(cpu, spiConfig, CYCLES_PER_US * 1e6);
    spi.onByte = (sent) => {
      const phase = cpu.data[SPCR]! & 0x04 ? 1 : 0;
      const answering = this.spiDevices.filter(({ selectPin }) => this.#driven(selectPin) === false);
      if (answering.length > 1) this.spiTrouble.collisions++;
      // A pin that is not driven yet floats; its device may or may not be selected.
      if (this.spiDevices.some(({ selectPin }) => this.#driven(selectPin) === null)) this.spiTrouble.collisions++;
      if (answering.length === 0) this.spiTrouble.unheard++;
      let back = 0xff;
      for (const device of answering) back &= device.exchange(sent, phase);
      cpu.addClockEvent(() => spi.completeTransfer(back), spi.transferCycles);
    };
  }

  readonly #lastDriven = new Map<number, boolean | null>();

  #pinsChanged(): void {
    for (const device of this.spiDevices) {
      const driven = this.#driven(device.selectPin);
      const before = this.#lastDriven.get(device.selectPin) ?? null;
      this.#lastDriven.set(device.selectPin, driven);
      if (driven === false && before !== false) device.select();
      else if (driven !== false && before === false) device.deselect();
    }
    for (const device of this.pinDevices) {
      const driven = this.#driven(device.pin);
      const before = this.#lastDriven.get(device.pin);
      this.#lastDriven.set(device.pin, driven);
      if (driven !== before) device.changed(driven);
    }
  }

  #driven(pin: number): boolean | null {
    const state = this.#portOf(pin).pinState(bitOf(pin));
    return state === PinState.High ? true : state === PinState.Low ? false : null;
  }

  #portOf(pin: number): AVRIOPort {
    return pin < 8 ? this.#ports.d : pin < 14 ? this.#ports.b : this.#ports.c;
  }
}

function bitOf(pin: number): number {
  return pin < 8 ? pin : pin < 14 ? pin - 8 : pin - 14;
}
