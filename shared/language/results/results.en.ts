/** Results in English: their names, and every sentence of an analysis. */

import type { LookAt } from '../../analysis/messages/contradiction-codes.ts';
import type { DefaultCode, MissingCode, RemarkCode } from '../../analysis/messages/messages.ts';
import type { Flag, Message, Moment, ResultId, ValueResult } from '../../contract/results.ts';
import { inputNamesEn } from './inputs.en.ts';
import { defaultsEn, missingEn, remarksEn } from './messages.en.ts';
import { methodNamesEn } from './methods.en.ts';
import { workingTextsEn } from './workings.en.ts';

const names: Readonly<Record<ResultId, string>> = {
  localBoilingPoint: 'Local boiling point',
  timeToTarget: 'Time to target',
  timeToBoil: 'Time to boil',
  meanHeatingRate: 'Mean heating rate',
  meanUsefulPower: 'Mean useful power',
  cookingPower: 'Cooking power',
  fuelEnergy: 'Fuel energy',
  equivalentDryFuel: 'Equivalent dry fuel',
  dryWoodPerBatch: 'Dry wood per batch',
  firepower: 'Power of the fire (firepower)',
  burningRate: 'Burning rate',
  thermalEfficiency: 'Thermal efficiency',
  thermalEfficiencyNoCharCredit: 'Thermal efficiency without char credit',
  sensibleEfficiency: 'Sensible efficiency',
  specificFuelConsumption: 'Wood per kg of load (specific fuel consumption)',
  turnDownRatio: 'How far the fire turns down (turn-down ratio)',
  evaporatedWater: 'Water evaporated',
  longestUnattended: 'Longest time unattended',
  typicalUnattended: 'Typical time unattended',
  recoveryAfterFeed: 'Recovery after a feed',
  holdDuration: 'Hold duration',
  holdBelowTarget: 'Time below the hold floor',
  holdLowest: 'Lowest temperature in the hold',
  stackLoss: 'Stack loss',
  stoveBodyHeat: 'Heat in the stove body',
  coolingTimeConstant: 'Time constant of the cooling pot',
  lossCoefficient: 'Heat the pot loses per kelvin (loss coefficient)',
};

const windows: Readonly<Record<ValueResult['window'], string>> = {
  toTarget: 'lit to target',
  hold: 'hold',
  whole: 'lit to fire out',
  moment: 'at one moment',
  cooling: 'while the pot cooled off the fire',
};

const moments: Readonly<Record<Moment['kind'], string>> = {
  lit: 'Lit',
  potOn: 'Pot on',
  target: 'Target reached',
  boil: 'Boiling',
  holdStart: 'Hold starts',
  holdEnd: 'Hold ends',
  fireOut: 'Fire out',
};

const flags: Readonly<Record<Flag['code'], string>> = {
  open: 'Probe open: broken or unplugged',
  shorted: 'Probe shorted',
  stuck: 'Reading stuck',
  spike: 'Spikes: a bad contact',
  outOfRange: 'Out of range',
  outOfWater: 'Probe out of the water',
  moved: 'Probe moved',
  gap: 'No reading',
  excluded: 'Left out by a person',
};

const sentence =
  <C extends string>(sentences: Readonly<Record<C, (params: Message['params']) => string>>) =>
  (message: Message) =>
    sentences[message.code as C]?.(message.params) ?? message.code;

export const resultsEn = {
  names,
  windows,
  methods: methodNamesEn,
  moments,
  flags,
  byMethod: {
    title: 'The same burn by every method',
    intro:
      'Each method defines its results in its own way and over its own stretch of the burn. A figure is worth comparing only with figures by the same method.',
    result: 'result',
    spread: 'apart',
    spreadHelp: 'Apart: from the lowest to the highest, as a share of their middle.',
    none: '–',
  },
  contradictions: {
    title: 'Does not fit together',
    intro: 'No number was changed. The figures in circles stand beside the results that each makes doubtful.',
    see: (p: { number: number }) => `see ${p.number} under “Does not fit together”`,
    look: {
      weighings: 'Weighings',
      marks: 'What was done',
      wood: 'Wood lots',
      probes: 'Probes',
      place: 'Places',
    } satisfies Record<LookAt, string>,
  },
  /** Name of an input, quantity or step; the code itself when it has none. */
  inputName: (name: string): string => inputNamesEn[name] ?? name,
  /** The parts of a burn that the disk changed, and what to do. */
  changedOnDisk: {
    readings: 'Readings of this burn changed on the disk after it had ended. What is computed from them may be wrong.',
    entries:
      'Something entered for this burn (a mark, a weighing, its stove, wood or scales) changed on the disk. Its results may be wrong.',
    help: 'Stop the service, then put a backup from before back: stovebench restore BACKUP. stovebench verify names every burn touched.',
  },
  /** A formula or a source, by its text in the declaration. */
  workingText: (text: string): string => workingTextsEn[text] ?? text,
  missing: sentence<MissingCode>(missingEn),
  defaults: sentence<DefaultCode>(defaultsEn),
  remarks: sentence<RemarkCode>(remarksEn),
};
