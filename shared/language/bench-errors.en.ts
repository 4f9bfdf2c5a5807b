/** Refusals around the bench itself: phones on the network, its clock, simulated things, photos. */
import type { Sentence } from './language.ts';

export const benchErrorsEn = {
  'service/certificate-incomplete': (p) =>
    `${p.there} is set and ${p.missing} is not. A certificate needs its key: set both, or neither.`,
  'service/certificate-unused': (p) =>
    `A certificate is set, but the service answers on ${p.host} only, where no phone comes. Set STOVEBENCH_HOST=0.0.0.0 as well, or unset STOVEBENCH_TLS_CERT and STOVEBENCH_TLS_KEY.`,
  'service/certificate-unreadable': (p) =>
    `The certificate ${p.certFile} and the key ${p.keyFile} cannot be used (${p.raw}). Name two files in PEM form that belong together.`,

  'pairing/needed': () =>
    'This device is not paired with the bench. Open the bench’s address on it and enter the code that the bench machine shows.',
  'pairing/bench-only': () =>
    'Codes are made, and devices sent away, on the bench machine only. Open the page there, as 127.0.0.1.',
  'pairing/code-wrong': () => 'That is not the code. Look at the bench machine again; it may show a new one.',
  'pairing/no-code': () =>
    'No code is good now. Show a new one on the bench machine, under Settings or with "stovebench pair".',
  'pairing/too-many-tries': (p) =>
    `Too many wrong codes came from this device. Wait ${p.minutes} minutes, then try with a new code.`,
  'pairing/device-not-found': (p) => `There is no paired device with the identifier ${p.id}. Load the list again.`,

  'clock/not-needed': () => 'The bench machine has a clock of its own, so another one is not taken.',
  'clock/implausible': () =>
    'This device’s own clock cannot be right either. Set the date of the device, then offer its time again.',

  'simulator/not-in-demo': () =>
    'The demonstration has its simulated board and its burns already. Start the bench with "npm start" to add them there.',
  'simulator/burn-running': () =>
    'A burn is recording from the simulated board. End that burn first, then take the board away.',

  'flash/bench-only': () =>
    'Firmware is put on a board on the bench machine only, where somebody sees which board it is. Open the page there, as 127.0.0.1.',
  'flash/burn-running': () =>
    'A burn is being recorded, and a board that is flashed measures nothing meanwhile. End the burn first.',
  'flash/busy': () => 'A board is being flashed already. Wait until that one is done.',
  'flash/no-boot-loader': (p) =>
    `No boot loader answered on ${p.path}. Is this a board with an ATmega328P and the boot loader it was sold with? Press its reset button just as you start again.`,
  'flash/wrong-chip': (p) =>
    `The chip on this board calls itself ${p.signature}; the firmware is for the ATmega328P (1e950f). Nothing was written.`,
  'flash/too-large': (p) =>
    `This firmware has ${p.bytes} bytes; ${p.mostBytes} fit beside the boot loader. Nothing was written.`,
  'flash/differs': (p) =>
    `What was read back differs from what was written, at byte ${p.address}. Try again; if it happens again, the chip or the lead is bad.`,
  'flash/interrupted': (p) =>
    `The board on ${p.path} stopped answering while it was flashed. Its boot loader is still there: check the lead and start again.`,
  'flash/not-live': (p) =>
    `The firmware is on the board and was read back, but the board on ${p.path} says nothing. Press its reset button; if it stays silent, look at its supply.`,

  'photo/not-a-photo': () => 'This is not a photo that every browser can show. Choose a JPEG, PNG or WebP file.',
  'photo/too-large': (p) => `This photo is larger than ${p.limitMb} MB. Choose a smaller one.`,
  'photo/not-found': (p) => `There is no photo named ${p.name}.`,
} satisfies Record<string, Sentence>;
