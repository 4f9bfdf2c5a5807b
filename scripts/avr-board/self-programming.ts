import type { CPU } from 'avr8js';

/** SPMCSR of the ATmega328P, and its bits (from memory of the data sheet). */
const SPMCSR = 0x57;
const ENABLE = 0x01;
const PAGE_ERASE = 0x02;
const PAGE_WRITE = 0x04;
const READ_WHILE_WRITE_ENABLE = 0x10;
const SECTION_BUSY = 0x40;

const PAGE_BYTES = 128;
/** An erase or a write takes 3.7 to 4.5 ms. */
const OPERATION_CYCLES = 64_000;

export interface SelfProgramming {
  /** Carries out the SPM instruction at the processor's program counter. */
  spm(): void;
}

/**
 * The SPM instruction, which avr8js executes without effect: page buffer, erase, write, and the busy flags that a boot
 * loader polls. As on the chip, it works only from the boot section and within four cycles of setting SPMCSR, and
 * writing can only turn ones into zeros.
 * @param bootAt first byte of the boot section
 */
export function selfProgramming(cpu: CPU, bootAt: number): SelfProgramming {
  const buffer = new Uint16Array(PAGE_BYTES / 2).fill(0xffff);
  let enabledUntil = 0;
  cpu.writeHooks[SPMCSR] = (value) => {
    // SPMCSR cannot be written while an operation runs.
    if (cpu.data[SPMCSR]! & ENABLE && cpu.data[SPMCSR]! & (PAGE_ERASE | PAGE_WRITE) && cpu.cycles > enabledUntil)
      return true;
    if (value & ENABLE) enabledUntil = cpu.cycles + 6;
    cpu.data[SPMCSR] = (cpu.data[SPMCSR]! & SECTION_BUSY) | (value & ~SECTION_BUSY);
    return true;
  };

  const done = () => {
    cpu.data[SPMCSR] = cpu.data[SPMCSR]! & SECTION_BUSY;
  };
  return {
    spm() {
      const control = cpu.data[SPMCSR]!;
      if (!(control & ENABLE) || cpu.cycles > enabledUntil || cpu.pc * 2 < bootAt) return;
      const address = cpu.dataView.getUint16(30, true);
      const page = address & ~(PAGE_BYTES - 1);
      const words = cpu.progMem.subarray(page / 2, (page + PAGE_BYTES) / 2);
      if (control & READ_WHILE_WRITE_ENABLE) {
        cpu.data[SPMCSR] = 0;
        buffer.fill(0xffff);
      } else if (control & PAGE_ERASE || control & PAGE_WRITE) {
        if (control & PAGE_ERASE) words.fill(0xffff);
        else for (let i = 0; i < buffer.length; i++) words[i]! &= buffer[i]!;
        if (control & PAGE_WRITE) buffer.fill(0xffff);
        enabledUntil = 0;
        cpu.data[SPMCSR] = control | SECTION_BUSY;
        cpu.addClockEvent(done, OPERATION_CYCLES);
      } else {
        buffer[(address & (PAGE_BYTES - 1)) >> 1]! = cpu.dataView.getUint16(0, true);
        done();
      }
    },
  };
}
