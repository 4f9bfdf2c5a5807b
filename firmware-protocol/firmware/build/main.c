/* The sketch without a board environment: the source of the hex file. */
#include "bench-config.h"

#include <stovebench.h>

int main(void) {
  bench_setup(&bench_of_sketch);
  for (;;) bench_loop();
}
