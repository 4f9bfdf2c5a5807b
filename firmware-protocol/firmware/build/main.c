/* The sketch without a board environment: what the hex file is made of. */
#include "bench-config.h"

#include <stovebench.h>

int main(void) {
  bench_setup(&bench_of_sketch);
  for (;;) bench_loop();
}
