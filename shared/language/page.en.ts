/**
 * The page in English: frame, live burn, alarms, marks. Stars make a stretch strong, tildes make it quiet; figures arrive written out.
 */
import type { MarkKind } from '../contract/marks.ts';
import { describeEn } from './page-describe.en.ts';
import { handEn } from './page-hand.en.ts';
import { pairEn } from './page-pair.en.ts';
import { readEn } from './page-read.en.ts';

const markNames: Record<MarkKind, string> = {
  lit: 'Lit',
  relit: 'Relit',
  potOn: 'Pot on',
  potOff: 'Pot off',
  fed: 'Fed',
  nudged: 'Poked the fire',
  logOut: 'Log pulled out',
  lidOn: 'Lid on',
  lidOff: 'Lid off',
  waterIn: 'Water in',
  waterOut: 'Water out',
  goodsIn: 'Put in',
  goodsOut: 'Taken out',
  targetReached: 'Target reached',
  holdStart: 'Hold starts',
  holdEnd: 'Hold ends',
  fireOut: 'Fire out',
  probeMoved: 'Probe moved',
  reading: 'Reading',
  wind: 'Wind',
  rain: 'Rain',
  away: 'Left the fire',
  back: 'Back at the fire',
  note: 'Note',
  photo: 'Photo',
};

export const pageEn = {
  name: 'Stovebench',
  skip: 'Skip to the content',
  nav: {
    label: 'Screens',
    now: 'Now',
    burns: 'Burns',
    compare: 'Compare',
    rig: 'Probes',
    shelf: 'Stoves',
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
    lostKeeps:
      'The service does not answer. What you enter is kept on this device and delivered when it is back; leave this page open.',
    lostKept:
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

  marks: {
    names: markNames,
    fedMass: (p: { mass: string }) => `fed ${p.mass}`,
    fedUnweighed: 'fed, not weighed',
    moved: (p: { what: string; mass: string; temp: string }) => `${p.what.toLowerCase()}, ${p.mass} at ${p.temp}`,
    step: (p: { what: string; step: string }) => `${p.what.toLowerCase()}: ${p.step}`,
    by: (p: { who: string }) => `by ${p.who}`,
    waiting: 'waiting',
    refused: 'refused',
    detected: 'from the curve',
    undo: (p: { what: string }) => `Undo “${p.what}”`,
    nothingToUndo: 'Nothing to undo',
    undone: (p: { what: string }) => `Taken back: ${p.what}`,
    logged: (p: { what: string; clock: string }) => `${p.what}, ${p.clock}`,
    correct: 'Correct',
    log: 'What was done',
    none: 'Nothing yet. What you do at the stove is listed here.',
    move: (p: { what: string }) => `Correct “${p.what}”`,
    minutesFromLit: 'Minutes from lighting',
    minutesFromStart: 'Minutes from the start of recording',
    beforeStart: (p: { minutes: string }) => `That is ${p.minutes} min before recording began. Is it right?`,
    conflict:
      'Somebody changed this on another screen meanwhile. What they saved is shown now; save again to put yours in its place.',
    conflictNow: (p: { what: string; minute: string }) => `Now it is: ${p.what}, at ${p.minute} min.`,
    remove: 'Take this mark back',
    heavyYes: (p: { mass: string }) => `Yes, ${p.mass} is right`,
  },

  run: {
    water: 'the water',
    waterMean: (p: { count: number }) =>
      p.count === 1 ? 'the water, one probe' : `the water, mean of ${p.count} probes`,
    ago: (p: { time: string }) => `${p.time} ago`,
    noWater: 'No water probe is read.',
    unheard: 'No reading while the service is away.',
    noWaterHelp: 'Say on the Probes screen which probe hangs in the water.',
    about95: 'about 95 of 100 readings like this one lie within',
    rising: (p: { rate: string }) => `Rising *${p.rate}*.`,
    falling: (p: { rate: string }) => `Falling *${p.rate}*.`,
    steady: 'Steady.',
    boilsIn: (p: { time: string; low: string; high: string; clock: string }) =>
      `Boils in about *${p.time}* ~(${p.low} to ${p.high}), near ${p.clock}~`,
    targetIn: (p: { target: string; time: string; low: string; high: string; clock: string }) =>
      `At ${p.target} in about *${p.time}* ~(${p.low} to ${p.high}), near ${p.clock}~`,
    holding: (p: { held: string; needed: string }) => `Held *${p.held}* of ${p.needed}.`,
    keepAbove: (p: { floor: string }) => `Keep it at or above *${p.floor}*.`,
    dropped: (p: { floor: string; held: string }) =>
      `Below *${p.floor}*: the count has dropped. ${p.held} held so far.`,
    paused: (p: { held: string; needed: string }) => `The count is paused. Held *${p.held}* of ${p.needed}.`,
    held: (p: { needed: string }) => `Held the full *${p.needed}*.`,
    holdEnded: 'The hold is ended, as you marked it.',
    aboveBoil: (p: { over: string }) =>
      `*${p.over}* hotter than water boils here: check the air pressure under Describe, and the probe.`,
    boilUnknown: 'The boiling point here is not known: enter the air pressure under Describe.',
    notLit: 'Not lit yet.',
    fireIsOut: (p: { ago: string }) => `Fire out ${p.ago} ago.`,
    potIsOff: 'The pot is off the fire.',
    youAreAway: 'You left the fire.',
    since: (p: { what: string; time: string }) => `${p.what} *${p.time}* ago`,
    asks: (p: { time: string }) => `this fire asks every ${p.time}`,
    boilsHere: (p: { temp: string }) => `boils here at ${p.temp}`,
    targetHere: (p: { temp: string }) => `target ${p.temp}`,
    floorHere: (p: { temp: string }) => `keep above ${p.temp}`,
    boardOk: 'board OK',
    boardsOk: (p: { count: number }) => `${p.count} boards OK`,
    boardSilent: 'board silent',
    boardLost: 'board gone',
    noBoard: 'no board',
    chooseBurn: 'More than one burn is running. Which one?',
    stop: 'Stop recording',
    stopSure: 'Recording stops and cannot go on in this burn. Stop it?',
    wrapUp: 'Weigh what is left',
    wrapUpSub: 'the fire is out',
    simulatedFast: (p: { scale: string }) => `simulated, ×${p.scale}`,
    simulated: 'simulated',
  },

  thumb: {
    label: 'Marks',
    lit: 'Lit',
    litSub: 'the flame holds',
    fed: 'Fed',
    fedSub: 'weigh and save',
    nudged: 'Poked the fire',
    fireOutSub: 'the hold is over',
    lidOn: 'Put lid on',
    lidOff: 'Take lid off',
    lidIsOn: 'it is on',
    lidIsOff: 'it is off',
    note: 'Note',
    other: 'Other…',
  },

  feed: {
    title: 'Wood into the fire',
    last: 'As before',
    log: (p: { mass: string }) => `Save ${p.mass}`,
    logEmpty: 'Type the mass',
    notWeighed: 'Not weighed',
    fromScale: (p: { mass: string }) => `From the scale: ${p.mass}`,
    when: 'When',
    now: 'just now',
    minutesAgo: (p: { minutes: number }) => `${p.minutes} min ago`,
    who: 'By',
    lot: 'From',
    heavy: (p: { mass: string; largest: string }) =>
      `*${p.mass}* is more than three times the heaviest feed of this stove so far, ${p.largest}. Is it right?`,
    heavyYes: (p: { mass: string }) => `Yes, save ${p.mass}`,
    heavyNo: 'No, change it',
    key: { delete: 'Delete the last figure', separator: 'Decimal mark' },
  },

  other: {
    title: 'What happened?',
    mass: 'Mass',
    temp: 'Temperature',
    carriedOut: 'Water carried out with it',
    logOutWeighed: 'Log pulled out, weighed…',
    text: 'What do you want to remember?',
    log: 'Save',
    steps: ['none', 'some', 'strong', 'very strong'] as readonly [string, string, string, string],
    groups: { fire: 'Fire', pot: 'Pot', water: 'Water and contents', bench: 'Bench and weather' },
  },

  scans: {
    fetching: (p: { count: number }) =>
      `${p.count === 1 ? '1 scan was missed and is' : `${p.count} scans were missed and are`} being fetched again from the board. Results may change until then.`,
    waiting: 'Waiting for the board to say what it still has of this burn. If its lead is out, plug it in.',
    complete: (p: { count: number }) => `All ${p.count} scans of the boards were recorded.`,
    missing: (p: { stored: number; missing: number }) =>
      `${p.stored} scans were recorded; ${p.missing} could not be fetched again and lie in the hatched gaps.`,
  },

  calls: {
    readingDue: (p: { time: string }) => `Time for a reading: the water was last read ${p.time} ago.`,
    nearlyThere: (p: { time: string }) => `Nearly there: about ${p.time} to go.`,
    target: 'The target is reached.',
    needsWood: (p: { time: string }) => `It may want wood: ${p.time} since the last time.`,
    holdLow: (p: { floor: string }) => `Too low: bring it back above ${p.floor}.`,
    holdDone: 'The hold is done.',
    probe: (p: { name: string; fault: string }) => `${p.name}: ${p.fault}.`,
    boardGone: (p: { name: string }) => `${p.name} no longer answers. Check its lead.`,
    notRecorded: (p: { name: string }) =>
      `${p.name} sends, but nothing of it is recorded. Look at Probes for what is wrong; write readings down meanwhile.`,
    hush: 'Seen',
  },

  faults: {
    open: 'broken or unplugged',
    shortToGround: 'shorted to ground',
    shortToSupply: 'shorted to supply',
    outOfRange: 'out of its range',
    noAnswer: 'does not answer',
    unreadable: 'unreadable',
  },

  now: {
    noFire: 'No fire is being recorded.',
    planned: 'Ready to light',
    start: 'Start recording',
    last: 'Last burns',
    newBurn: 'New burn',
    emptyTitle: 'The bench is empty.',
    noBurnTitle: 'No burn has been recorded yet.',
    first:
      'Plug a board with its probes into this machine and say on the *Probes* screen which probe hangs in the water.',
    second: 'Describe the stove, the pot, the water and the wood once, under *New burn*.',
    third: 'Light it, enter every piece of wood you feed, and weigh what is left when the fire is out.',
    noBoardDemo: 'No board at hand? This demonstration brings a simulated one: look under Probes.',
  },

  photo: {
    choose: 'Take or choose a photo',
    hint: 'JPEG, PNG or WebP. Place and time that the phone wrote into it are not kept.',
    sending: 'Sending…',
    alt: 'The photo, full size',
  },

  tryOut: {
    title: 'Nothing to measure yet?',
    what: 'A simulated board can stand in for a real one, and eight sample burns show what there is to read and compare. Both are invented, say so wherever they appear, and can be removed again, here or under Settings.',
    addBoard: 'Plug in a simulated board',
    removeBoard: 'Remove the simulated board',
    addBurns: 'Add the sample burns',
    removeBurns: 'Remove the sample burns',
    working: 'A moment…',
  },

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
    kept: 'This page is kept on this device: it opens while the service is away. From the menu of the browser it can be put on the home screen.',
    refused:
      'This browser does not trust the certificate of the bench machine, and so does not keep this page: it does not open without the service. Trust the certificate in the settings of this device, then load the page again.',
    data: 'Data of this bench',
    bringIn: 'Import data',
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

  cautions: {
    title: 'Cautions',
    read: 'Cautions',
    lighting:
      'Burn outdoors or under a flue that is known to draw: carbon monoxide has no smell. Keep a metre clear all round, water or sand within reach, children away. No petrol, no painted or treated wood.',
    scrap:
      'Galvanised, plated or painted steel gives off poisonous fumes on its first firing. Never cut or heat a closed vessel.',
    hot: 'Twenty litres near the boil scald for life. Stable base, lid tilted away from you, probe leads out of the way; never lift a hot pot.',
    char: 'Raked-out char keeps making carbon monoxide: lidded metal tin, outdoors, weighed when cold.',
    unattended: 'Do not leave the fire. These alarms may not reach you.',
    food: 'Temperature in the bath is not temperature in the jar. Boiling water does not make low-acid food (pH above 4.6) safe at any length of time: follow the tested schedule of your food-safety authority.',
    defer: 'Local fire rules, building codes and licensed trades decide; this page only measures.',
  },

  describe: describeEn,
  hand: handEn,
  pair: pairEn,
  read: readEn,
};
