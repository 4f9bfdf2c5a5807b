/** In English: the frame around every screen. */
import { cautionsEn } from '../cautions.en.ts';

export const frameEn = {
  name: 'Stovebench',
  skip: 'Skip to the content',
  nav: {
    label: 'Screens',
    now: 'Now',
    burns: 'Burns',
    compare: 'Compare',
    probes: 'Probes',
    stoves: 'Stoves',
    settings: 'Settings',
  },
  loading: 'Fetching…',
  notFound: 'There is no screen at this address.',
  goHome: 'To the first screen',
  close: 'Close',
  cancel: 'Cancel',
  save: 'Save',
  sending: 'Sending…',
  again: 'Try again',
  drop: 'Discard entry',
  broken: 'This screen has broken down. What you entered is safe; try again, or open another screen.',
  serviceAwayYet: 'The service does not answer. This is shown when it is back.',
  serviceAwayNow: 'The service does not answer, so nothing was changed. Try again when it is back.',
  link: {
    lostContinues:
      'The service does not answer. What you enter is kept on this device and delivered when it is back; leave this page open.',
    lostStored:
      'The service does not answer. What you enter is kept on this device, even if this page is closed, and delivered when it is back and this page is open.',
    lostMemory:
      'The service does not answer, and this browser keeps nothing when the page closes. Leave this page open until it is back.',
    waiting: (p: { count: number }) => (p.count === 1 ? '1 entry waiting' : `${p.count} entries waiting`),
    diskFull: 'The disk of the bench machine is full. Make room on it now.',
    diskFails: 'The disk of the bench machine takes no readings. Look at the machine now.',
    scansWait: (p: { count: number }) => `${p.count} scans wait in its memory`,
    scansLost: (p: { count: number }) => `${p.count} scans are lost`,
    delivering: 'Delivering what you entered…',
    newVersion: 'The bench has a newer version of this page. Nothing you entered is lost by loading it.',
    reload: 'Load it',
    lookAt: 'Look at it',
    refused: (p: { what: string; why: string }) => `“${p.what}” was not accepted: ${p.why}`,
  },
  photo: {
    choose: 'Take or choose a photo',
    hint: 'JPEG, PNG or WebP. Place and time that the phone wrote into it are not kept.',
    sending: 'Sending…',
    alt: 'The photo, full size',
  },
  cautions: {
    ...cautionsEn,
    title: 'Cautions',
    read: 'Cautions',
    unattended: `${cautionsEn.unattended} These alarms may not reach you.`,
    defer: `${cautionsEn.defer} This page only measures.`,
  },
};
