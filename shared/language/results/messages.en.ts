/** Reasons for missing results, defaults and remarks, in English. Temperatures °C, masses kg. */

import type { DefaultCode, MissingCode, RemarkCode } from '../../analysis/messages/messages.ts';
import type { MethodSet } from '../../contract/burn-record.ts';
import { type Params, type Sentence, writeNumber } from '../language.ts';
import { contradictionsEn } from './contradictions.en.ts';
import { methodNamesEn } from './methods.en.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('en', Number(value), decimals);
const kg = (value: Params[string] | undefined) => `${number(value, 2)}\u00a0kg`;
const grams = (value: Params[string] | undefined) => `${number(1000 * Number(value), 0)}\u00a0g`;
const degrees = (value: Params[string] | undefined) => `${number(value, 1)}\u00a0°C`;
const kelvins = (value: Params[string] | undefined, decimals = 1) => `${number(value, decimals)}\u00a0K`;
const minutes = (value: Params[string] | undefined) => `${number(Number(value) / 60, 0)}\u00a0min`;
const seconds = (value: Params[string] | undefined) => `${number(value, 0)}\u00a0s`;
const percent = (value: Params[string] | undefined, decimals = 1) => `${number(100 * Number(value), decimals)}\u00a0%`;
const of = (what: Params[string] | undefined) => (what ? ` of ${what}` : '');

const methodName = (code: Params[string] | undefined) => methodNamesEn[code as MethodSet] ?? String(code);

export const missingEn: Readonly<Record<MissingCode, Sentence>> = {
  notDefinedByMethod: (p) => `The method “${methodName(p.method)}” does not define this result.`,
  noWaterTemperature: () =>
    'No water probe gave a usable reading. Give a channel the role "water", or mark the moments by hand.',
  litUnknown: () => 'It is not known when the fire was lit. Mark "lit".',
  fireOutUnknown: () => 'It is not known when the fire ended. Mark "fire out".',
  noWaterTempAtLit: () =>
    'The water temperature at lighting is not known. Start recording before lighting, or enter the temperature with the first water weighing.',
  noWaterTempAtEnd: () =>
    'The water temperature at fire out is not known. Leave the probes in until then, or enter the temperature with the last water weighing.',
  targetNotReached: (p) =>
    p.targetTempC === undefined
      ? 'The target was not reached.'
      : `The target was not reached: the water came to ${degrees(p.highestTempC)}, the target is ${degrees(p.targetTempC)}.`,
  targetAlreadyReached: (p) =>
    `The water was at ${degrees(p.startTempC)} when the fire was lit, and the target is ${degrees(p.targetTempC)}: there was nothing to heat. Check the target and the mark “lit”.`,
  targetAboveBoiling: (p) =>
    `The target of ${degrees(p.targetTempC)} cannot be reached: water boils at ${degrees(p.boilingTempC)} here. Set the target to the boil.`,
  targetBelowBoil: (p) => `This burn had ${degrees(p.targetTempC)} as its target, so it was not brought to the boil.`,
  boilingPointUnknown: () =>
    'The local boiling point is not known. Enter the air pressure at the place (not reduced to sea level) or its altitude.',
  crossingInGap: (p) =>
    `The target was passed during a gap of ${minutes(p.gapS)} in the readings. Mark "target reached".`,
  noRise: () => 'The water did not get warmer, so there is nothing to divide by.',
  waterNotWeighedBefore: () =>
    'The water was not weighed before the burn. Enter its mass, or its volume and temperature.',
  waterNotWeighedAfter: () =>
    'The water was not weighed after the burn. Enter its mass, or its volume and temperature.',
  waterPending: () => 'The water is still to be weighed.',
  moreWaterLeftThanBrought: (p) =>
    `More water is left than was put in (${kg(p.kg)} more). Check the water weighings and the water added.`,
  fuelNotWeighed: (p) =>
    `The fuel burnt${of(p.lot)} is not known. Weigh the pile before and after, or give every feed its mass.`,
  fuelPending: (p) => `The fuel${of(p.lot)} is still to be weighed.`,
  moreFuelLeftThanBrought: (p) =>
    `More fuel${of(p.lot)} is left than was brought (${kg(p.kg)} more). Check the pile before and after.`,
  charNotWeighed: () =>
    'The char was not weighed. Enter its mass (0 if there was none), or say that it will be weighed later.',
  charExceedsFuel: (p) =>
    `The char would hold more heat (${number(p.charMJ, 1)}\u00a0MJ) than the fuel burnt (${number(p.fuelMJ, 1)}\u00a0MJ). Check both weighings.`,
  fuelTooWet: (p) => `Fuel with ${percent(p.moistureWet, 0)} moisture gives no heat. Check the moisture and its basis.`,
  holdNotAsked: () => 'No hold was asked for in this burn.',
  holdNotReached: () => 'The hold never began, because the target was not reached.',
  holdNotKept: (p) => `The hold was not kept: ${minutes(p.countedS)} counted of ${minutes(p.neededS)}.`,
  feedsNotWeighed: () => 'Fuel within a part of the burn needs every feed with its mass.',
  fireboxUnknown: (p) =>
    `What lay in the firebox at the edges of this part of the burn is only known to ${kg(p.standardUncertaintyKg)}, too much for ${kg(p.kg)} of fuel. Rake out and weigh there, or burn in smaller charges.`,
  noAttention: () => 'No feed, poke of the fire, lid or relighting was marked.',
  noFeedBeforeTarget: () => 'No feed was marked between lighting and the target.',
  feedsTooClose: () => 'The heating rate was never back before the target or the end.',
  readingsTooFarApart: (p) =>
    `The water was read every ${minutes(p.apartS)}; how soon it warms again after a feed takes one reading per minute.`,
  noFlueTemperature: () => 'There is no probe in the flue.',
  noGasFraction: () => 'There is no usable oxygen or carbon dioxide reading of the flue gas.',
  tooFewBodyProbes: (p) => `The heat in the stove body needs at least two body probes; there are ${p.count}.`,
  noBodyMass: () => 'The mass of the stove body is not known. Enter it with the revision.',
  noCooling: () =>
    'The pot was not left to cool for twenty minutes and by 2\u00a0K off the fire, with its probes in. Mark Pot off, and let it cool once.',
  nothingBurnt: () => 'This is a cooling run: nothing burnt, so only the heat loss of the pot is told.',
  windowEmpty: () => 'The end of this part of the burn lies before its start. Check the marks.',
  notComputable: () => 'The numbers given lead to no result. Check the weighings and marks.',
};

export const defaultsEn: Readonly<Record<DefaultCode, Sentence>> = {
  probeClass: (p) =>
    `Probe ${p.channel}: tolerance class ${p.toleranceClass} assumed, ±${kelvins(p.halfWidthK)} near the boil.`,
  probeUncertainty: (p) => `Probe ${p.channel}: ±${kelvins(p.halfWidthK)} assumed.`,
  coldJunctionUncertainty: (p) =>
    `Probe ${p.channel}: cold junction taken as known to ${kelvins(p.standardUncertaintyK)} (standard uncertainty).`,
  probeLag: (p) => `The lag of the water probes is not known: anything from none to ${seconds(p.longestS)}.`,
  singleProbe: (p) =>
    `One water probe stands for the whole pot: ${kelvins(p.standardUncertaintyK)} standard uncertainty assumed for layers.`,
  layers: (p) =>
    `Water in layers ${kelvins(p.spreadK)} apart: the mean of the probes is taken as the mean of the water, give or take ${percent(p.weight, 0)} of the difference.`,
  plateauLevel: (p) =>
    `Boiling water is taken to stand near the boiling point of its surface, known to ${kelvins(p.standardUncertaintyK, 2)}.`,
  litUncertainty: (p) => `The mark "lit" is taken as known to ${seconds(p.standardUncertaintyS)}.`,
  litDetected: (p) => `Lighting was found from the curves, known to ${seconds(p.standardUncertaintyS)}.`,
  fireOutUncertainty: (p) => `The mark "fire out" is taken as known to ${seconds(p.standardUncertaintyS)}.`,
  fireOutDetected: (p) => `The end of the fire was found from the curves, known to ${seconds(p.standardUncertaintyS)}.`,
  targetMarkUncertainty: (p) => `The mark "target reached" is taken as known to ${seconds(p.standardUncertaintyS)}.`,
  pressureUncertainty: (p) =>
    `Air pressure taken as known to ${number(Number(p.standardUncertaintyPa) / 100, 1)}\u00a0hPa.`,
  altitudeUncertainty: (p) => `Altitude taken as known to ${number(p.standardUncertaintyM, 0)}\u00a0m.`,
  weather: (p) =>
    `Weather taken to move the air pressure by ${number(Number(p.standardUncertaintyPa) / 100, 0)}\u00a0hPa (standard uncertainty).`,
  scaleUncertainty: (p) =>
    `Scale${p.scale ? ` ${p.scale}` : ''}: reading known to ${grams(p.readingKg)}, gain to ${percent(p.gain)}, tare to ${grams(p.zeroKg)}.`,
  volumeUncertainty: (p) => `Volume taken as known to ${kg(p.standardUncertaintyKg)}.`,
  readAtTemp: (p) => `Volume taken as read at ${degrees(p.tempC)}.`,
  moisture: (p) =>
    `Moisture of ${p.lot} not measured: ${percent(p.fraction, 0)} wet basis assumed, known to ${percent(p.standardUncertainty, 0)} (points).`,
  moistureUncertainty: (p) =>
    `Moisture of ${p.lot} taken as known to ${percent(p.standardUncertainty)} (points), by how it was measured.`,
  heatingValue: (p) =>
    `Heating value of ${p.lot} not given: ${number(p.MJPerKg, 1)}\u00a0MJ/kg net, dry, known to ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  heatingValueUncertainty: (p) =>
    `Heating value of ${p.lot} taken as known to ${number(p.standardUncertaintyMJPerKg, 2)}\u00a0MJ/kg.`,
  hydrogen: (p) => `Hydrogen in ${p.lot}: ${number(p.percent, 1)}\u00a0% of the dry mass assumed.`,
  charHeatingValue: (p) =>
    `Heating value of the char: ${number(p.MJPerKg, 1)}\u00a0MJ/kg assumed, known to ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  charHeatingValueUncertainty: (p) =>
    `Heating value of the char taken as known to ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  charBurnsOn: (p) => `Char goes on burning until it is weighed: up to ${grams(p.mostKg)} more at fire out.`,
  kindlingAllBurnt: (p) => `${p.lot}: all of it taken as burnt, since none was weighed afterwards.`,
  brandsMoisture: () =>
    'Moisture of the half-burnt wood not measured: anything from none to all of its water taken as left (common practice, no source).',
  brandsMoistureUncertainty: (p) =>
    `Moisture of the half-burnt wood taken as known to ${percent(p.standardUncertainty)} (points), by how it was measured.`,
  coolingBeforeWeighing: (p) => `Up to ${grams(p.mostKg)} of water taken as lost between fire out and the weighing.`,
  steamedCooling: (p) => `Up to ${grams(p.mostKg)} of water taken as steamed off while the pot cooled.`,
  carriedOutWater: (p) => `Water carried out with the contents not given: anything up to ${kg(p.mostKg)}.`,
  contentsLag: (p) =>
    `${p.content}: neither radius nor core probe given, so how far they lagged the water is not known; their heat may be less.`,
  contentsMassUncertainty: (p) => `${p.content}: mass taken as known to ${grams(p.standardUncertaintyKg)}.`,
  goodsSpecificHeat: (p) => `Specific heat of the contents: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) assumed.`,
  airTemp: (p) => `Air temperature not given: ${degrees(p.tempC)} assumed.`,
  vesselSpecificHeat: (p) => `Specific heat of the pot: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) assumed.`,
  bodySpecificHeat: (p) => `Specific heat of the stove body: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) assumed.`,
  startTempFromWeighing: (p) =>
    `Water at lighting taken as ${degrees(p.tempC)}, the temperature written with the first weighing, known to ${kelvins(p.standardUncertaintyK)}.`,
  endTempFromWeighing: (p) =>
    `Water at fire out taken as ${degrees(p.tempC)}, the temperature written with the last weighing, known to ${kelvins(p.standardUncertaintyK)}.`,
  siegert: (p) => `Coefficient of the stack loss for dry wood: ${number(p.a1, 2)}.`,
};

export const remarksEn: Readonly<Record<RemarkCode, Sentence>> = {
  ...contradictionsEn,
  potOnOffset: (p) =>
    Number(p.offsetS) > 0
      ? `The pot went on ${seconds(p.offsetS)} after lighting; time counts from lighting.`
      : `The pot was on ${seconds(-Number(p.offsetS))} before lighting; time counts from lighting.`,
  boilingPointFromPressureChannel: (p) =>
    `Boiling point from the pressure recorded, ${number(Number(p.pressurePa) / 100, 1)}\u00a0hPa.`,
  boilingPointFromPressure: (p) =>
    `Boiling point from the air pressure at the place, ${number(Number(p.pressurePa) / 100, 1)}\u00a0hPa.`,
  boilingPointFromAltitude: (p) =>
    `Boiling point from the altitude by the standard atmosphere, ${number(Number(p.pressurePa) / 100, 0)}\u00a0hPa; the weather of the day is not in it.`,
  boilingPointFromPlateau: (p) =>
    `The plateau at ${degrees(p.levelC)} defines the boiling point. It cannot correct the probes as well.`,
  plateauCalibratesProbes: (p) =>
    `The plateau at ${degrees(p.levelC)} corrects the probes. It cannot define the boiling point as well.`,
  plateauNotUsed: (p) =>
    `The plateau at ${degrees(p.levelC)} is too far from the boiling point of ${degrees(p.boilingTempC)} to be the boil.`,
  stalledBelowBoil: (p) =>
    `The plateau at ${degrees(p.levelC)} answers to feeding: the pot stalled, it did not boil (boiling point ${degrees(p.boilingTempC)}).`,
  targetFromMark: () => 'The moment of the target is the one the person marked.',
  crossingBetweenReadings: (p) =>
    `The target was passed between two readings ${minutes(p.apartS)} apart; the interval allows for it. Read more often near the target.`,
  stillFetching: () =>
    'Readings of this burn are still being fetched from its board: results may change until they are there, or are told as a gap.',
  crossingInShortGap: (p) => `The target was passed during a gap of ${seconds(p.gapS)}; the interval allows for it.`,
  boilUncertain: () =>
    'The water came so close to the limit that with other probe errors it would not count as boiling.',
  charPending: (p) =>
    `The char is still to be weighed: anything from none to ${kg(p.mostKg)} allowed for. The result becomes sharper then.`,
  feedsDisagreeWithPile: (p) =>
    `Feeds of ${p.lot} add up to ${kg(p.feedsKg)}, the pile lost ${kg(p.pileKg)}. The pile counts; a feed may be missing or doubled.`,
  fuelFromFeeds: (p) => `Fuel of ${p.lot} from the feeds; a feed that was not marked would be missing.`,
  unweighedFeeds: (p) => `Some feeds of ${p.lot} have no mass; the pile counts.`,
  lotWithoutMass: (p) => `${p.lot} has no mass and is not counted.`,
  slightlyNegativeEvaporation: (p) =>
    `${grams(-Number(p.kg))} more water was weighed after than before, within what the scale can tell: none evaporated.`,
  steamIsHalf: (p) =>
    `${percent(p.share, 0)} of the useful heat is steam. A stove that boils harder looks better here while using more wood; compare wood per batch.`,
  vesselHeatApart: (p) => `The pot took up ${number(p.MJ, 2)}\u00a0MJ, which is not counted as useful.`,
  contentsOneSided: (p) => `${p.content} lag the water; without a core probe their heat is an upper bound.`,
  carriedOutWaterUnknown: () => 'Water carried out with wet contents looks like steam. Weigh them wet and dry.',
  weighedAfterCooling: (p) =>
    `The water cooled by ${kelvins(p.cooledK, 0)} without its lid before it was weighed; what left meanwhile looks like steam of the fire. Weigh with the lid on.`,
  holdPartlyUnread: (p) =>
    `Nothing was read for ${seconds(p.unreadS)} of the hold; the water stood at its temperature on either side, so that time counts.`,
  holdShort: (p) =>
    `The hold counts ${seconds(p.countedS)} of ${seconds(p.neededS)}: kept as far as its start and end are known, to ${seconds(p.toleranceS)}.`,
  targetWithinProbes: (p) =>
    `The probes stayed ${kelvins(p.shortK)} below the target, which is within what they can tell (${kelvins(p.marginK)}). The moment is the one at which the water came closest to it for good.`,
  probesDisagree: (p) =>
    `The water probes differed by ${kelvins(p.differenceK)} before the fire heated the water, ${number(p.ratio, 1)} times what is known of them allows; their uncertainty is taken so many times larger. One of them is off: hold both in one pot of boiling water.`,
  holdNotProven: (p) =>
    `The hold was kept as far as the probes can tell; to be sure they would have to show ${kelvins(p.marginK)} more.`,
  firebox: (p) =>
    `${kg(p.kg)} of fuel in this part of the burn, known to ${kg(p.standardUncertaintyKg)} because of what lay in the firebox.`,
  stoveOnScale: (p) =>
    `${kg(p.kg)} of fuel in this part of the burn by the scale under the stove, known to ${kg(p.standardUncertaintyKg)}.`,
  maximum: () => 'A longest time is a single event; compare it with care.',
  rough: () => 'Rough: a few probes stand for a body that is hot in places and cool in others.',
  noDip: () => 'The heating rate did not fall after feeding.',
  temperatureCorrected: (p) =>
    `For a rise of 75 K instead of ${number(p.riseK, 1)} K: ${number(p.corrected, Math.abs(Number(p.corrected)) < 10 ? 4 : 0)}.`,
  holdRuleAssumed: () => 'No hold rule was set before lighting; a drop pauses the count.',
  fromMemory: () =>
    'The published text of this method was not at hand: its formula and constants stand in the working.',
  hotStart: () => 'Hot start: the stove body was warm at lighting. Compare with hot starts only.',
  startKindUnknown: () => 'It was not stated whether the stove was cold or hot at lighting; the two are never pooled.',
  onlyOneProbeLeft: (p) => `Only one water probe counts: ${p.channel}.`,
  recordingStartedAfterLit: (p) =>
    `The first reading of the water came ${seconds(p.afterS)} after heating began; by then it may have risen by up to ${kelvins(p.mostK)}, and the interval reaches as much further.`,
  preservingJarTemperature: () =>
    'The temperature in the bath is not the temperature in the jar: the middle of a jar lags by many minutes.',
  preservingLowAcid: () =>
    'Boiling water does not make low-acid food (pH above 4.6) safe, however long it is held. Such food needs a tested pressure process.',
  preservingSchedule: () =>
    'Only the tested schedule of your local food-safety authority decides whether preserved food is safe. These results are no safety certificate.',
};
