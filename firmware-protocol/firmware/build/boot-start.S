; Where the boot loader begins: no vectors, stack at the end of RAM, zero in r1, .bss cleared by its user (a page buffer).
#include <avr/io.h>
.section .text.start, "ax"
.section .init0, "ax"
  eor r1, r1
  out _SFR_IO_ADDR(SREG), r1
  ldi r28, lo8(RAMEND)
  ldi r29, hi8(RAMEND)
  out _SFR_IO_ADDR(SPH), r29
  out _SFR_IO_ADDR(SPL), r28
  rjmp main
