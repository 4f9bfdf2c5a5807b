/** The page in English: phones on the network, and the clock of a machine that has none. */

export const pairEn = {
  title: 'Phones',
  link: 'Phones on the network',
  closed:
    'The bench answers on this machine only. To let phones in, stop the service and start it with *STOVEBENCH_HOST=0.0.0.0*; whoever is not paired still gets nothing.',
  open: 'On a phone of the same network open',
  noAddress: 'This machine is on no network now. Join one, then load this screen again.',
  plainHttp:
    'Phones come over plain http: whoever can listen on this network can read along. With a certificate of your own they get https; the README says how.',
  showCode: 'Show a code',
  newCode: 'Show a new code',
  code: 'Enter this code on the phone',
  orCamera: 'or point its camera here',
  qrCode: (p: { address: string }) => `QR code: opens ${p.address} with the code filled in`,
  codeLeft: (p: { minutes: number }) => `Good for one phone and about ${p.minutes} min.`,
  hideCode: 'Done, take the code away',
  devices: 'Paired',
  noDevices: 'No phone is paired yet.',
  unnamed: 'a phone without a name',
  pairedOn: (p: { date: string }) => `since ${p.date}`,
  lastSeen: (p: { date: string }) => `last here ${p.date}`,
  sendAway: 'Send away',
  sendAwayNamed: (p: { name: string }) => `Send away: ${p.name}`,
  sendAwaySure: (p: { name: string }) => `Send “${p.name}” away? It has to be paired again to come back.`,
  benchOnly: 'This device is paired. Codes are made, and devices sent away, on the bench machine.',

  codeTitle: 'Pair this device with the bench',
  codeHow: 'On the bench machine open *Settings*, *Phones on the network*, and show a code. Then enter it here, once.',
  codeField: 'The six figures',
  deviceName: 'A name for this device',
  deviceNameHelp: 'So that it is known in the list. May stay empty.',
  submit: 'Pair',
  codeMissing: 'Enter the six figures that the bench machine shows.',
  without: 'Over plain http a browser withholds some things',
  withoutList: [
    'It cannot be installed, and does not open while the service is away: leave the page open.',
    'The screen is kept lit by a small silent video.',
    'What you enter while out of reach is kept here and delivered later, all the same.',
  ] as readonly string[],

  noClock: (p: { time: string }) =>
    `The bench machine does not know what day it is. This device says ${p.time}. Readings keep their spacing either way; dates would be wrong.`,
  giveClock: 'Give the bench this time',
};
