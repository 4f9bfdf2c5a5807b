#!/usr/bin/env bash
# Builds the firmware with the compilers of Debian's packages (gcc-avr, avr-libc, binutils-avr; for the rest also
# arduino-core-avr and gcc-arm-none-eabi), warnings as errors, and prints sizes.
#   build.sh          writes hex/
#   build.sh --check  proves that hex/ is what this source makes, changes nothing
# What the machine has no compiler for is left out, and said, except that --check wants avr-gcc.
set -euo pipefail
cd "$(dirname "$0")/.."
check=0
[ "${1:-}" = --check ] && check=1

out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
warnings='-Wall -Wextra -Wconversion -Werror'
avr="-mmcu=atmega328p -DF_CPU=16000000UL -Os -flto -ffunction-sections -fdata-sections -fno-tree-switch-conversion -Wl,--gc-sections $warnings"
boards='bench-board-14 bench-board-19 bench-board-mixed'

avr-gcc --version | head -n 1
# shellcheck disable=SC2086
for board in $boards; do
  avr-gcc $avr -std=gnu99 -I src -I "examples/$board" src/*.c build/main.c -o "$out/$board.elf"
  avr-objcopy -O ihex -R .eeprom "$out/$board.elf" "$out/$board.hex"
done
# shellcheck disable=SC2086
avr-gcc $avr -std=gnu99 -nostartfiles -Wl,--section-start=.text=0x7C00 build/boot-start.S build/boot-loader.c -o "$out/boot-loader.elf"
avr-objcopy -O ihex -R .eeprom "$out/boot-loader.elf" "$out/boot-loader.hex"

echo 'ATmega328P: 32768 bytes of flash, 2048 of RAM (bss holds the last scans)'
(cd "$out" && avr-size ./*.elf)
for hex in "$out"/*.hex; do
  name=$(basename "$hex")
  if [ "$check" = 0 ]; then
    cp "$hex" "hex/$name"
  elif ! cmp "$hex" "hex/$name"; then
    echo "hex/$name is not what the source makes: run firmware-protocol/firmware/build/build.sh and commit it" >&2
    exit 1
  fi
done
[ "$check" = 0 ] || echo 'hex/ equals a build from source'

core=/usr/share/arduino/hardware/arduino/avr
if [ -d "$core/cores/arduino" ]; then
  for board in $boards; do
    mkdir "$out/$board"
    system="-I $core/cores/arduino -I $core/variants/standard -DARDUINO=10800"
    # The core's own code is not held to our warnings, and of its C++ the sketch needs no more than main.
    # shellcheck disable=SC2086
    (cd "$out/$board" &&
      avr-gcc ${avr/$warnings/-w} -c $system "$core"/cores/arduino/*.c &&
      avr-g++ ${avr/$warnings/-w} -std=gnu++11 -fno-exceptions -fno-threadsafe-statics -c $system "$core/cores/arduino/main.cpp")
    # shellcheck disable=SC2086
    (cd src && avr-gcc $avr -std=gnu99 -c ./*.c && mv ./*.o "$out/$board/")
    # shellcheck disable=SC2086
    avr-g++ $avr -std=gnu++11 -fno-exceptions $system -include Arduino.h -I src -x c++ -c "examples/$board/$board.ino" -o "$out/$board/sketch.o"
    (cd "$out/$board" && avr-gcc-ar rcs core.a $(ls ./*.o | grep -v sketch) &&
      avr-gcc -mmcu=atmega328p -Os -flto -Wl,--gc-sections -w sketch.o core.a -o "../$board-sketch.elf")
  done
  echo 'the sketches, with the core of the common board environment:'
  (cd "$out" && avr-size ./*-sketch.elf)
else
  echo 'arduino-core-avr is not installed: the sketches were not built'
fi

if command -v arm-none-eabi-gcc > /dev/null; then
  for source in src/*.c; do
    [ "$source" = src/hardware-avr.c ] && continue
    # shellcheck disable=SC2086
    arm-none-eabi-gcc -mcpu=cortex-m0plus -mthumb -Os -std=c99 $warnings -c "$source" -o "$out/$(basename "$source" .c).arm.o"
  done
  echo 'a 32-bit processor (Cortex-M0+): compiled, everything above the hardware layer; it was not run'
  (cd "$out" && arm-none-eabi-size -t ./*.arm.o | tail -n 1)
else
  echo 'gcc-arm-none-eabi is not installed: no 32-bit processor was compiled for'
fi
