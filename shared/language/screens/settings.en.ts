/** In English: settings of this device. */

export const settingsEn = {
  settings: {
    title: 'Settings of this device',
    language: 'Language',
    theme: 'Light',
    themes: { system: 'as the device', day: 'day', night: 'night' },
    units: 'Units',
    unitNames: { si: 'metric (kg, °C)', usCustomary: 'US customary (lb, °F)' },
    sound: 'Sound for alarms',
    soundHelp: 'A phone also shakes, with or without sound.',
    on: 'on',
    off: 'off',
    person: 'Who is at the stove',
    personHelp: 'Written beside every mark made on this device.',
    plain:
      'This page came over plain http: it cannot be installed and does not open without the service. What you enter is still kept here until delivered.',
    stored:
      'This page is kept on this device: it opens while the service is away. From the menu of the browser it can be put on the home screen.',
    refused:
      'This browser does not trust the certificate of the bench machine, and so does not keep this page: it does not open without the service. Trust the certificate in the settings of this device, then load the page again.',
    data: 'Data of this bench',
    imports: 'Import data',
    backUp: 'Back up now',
    backingUp: 'Backing up, and proving every burn in the copy…',
    backUpHelp: 'A burn may run meanwhile.',
    backedUp: (p: { burns: number; time: string }) =>
      p.burns === 1
        ? `Backed up at ${p.time}, with 1 burn, on the bench machine in`
        : `Backed up at ${p.time}, with ${p.burns} burns, on the bench machine in`,
    backedUpElsewhere: 'Copy that folder to another disk: a backup beside the original burns with it.',
    about: (p: { version: string }) => `Stovebench ${p.version}`,
  },
};
