// A bench board: probes of bench-config.h, read once a second, told to the host in line protocol 1.
#include "bench-config.h"

#include <stovebench.h>

void setup() { bench_setup(&bench_of_sketch); }

void loop() { bench_loop(); }
