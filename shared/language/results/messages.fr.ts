/** Pourquoi un résultat manque, ce qui a été pris par défaut, ce qu'il faut savoir : en français. */

import type { MethodSet } from '../../contract/burn-record.ts';
import { type Params, writeNumber } from '../language.ts';
import { contradictionsFr } from './contradictions.fr.ts';
import type { defaultsEn, missingEn, remarksEn } from './messages.en.ts';
import { methodNamesFr } from './methods.fr.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('fr', Number(value), decimals);
const kg = (value: Params[string] | undefined) => `${number(value, 2)}\u00a0kg`;
const grams = (value: Params[string] | undefined) => `${number(1000 * Number(value), 0)}\u00a0g`;
const degrees = (value: Params[string] | undefined) => `${number(value, 1)}\u00a0°C`;
const kelvins = (value: Params[string] | undefined, decimals = 1) => `${number(value, decimals)}\u00a0K`;
const minutes = (value: Params[string] | undefined) => `${number(Number(value) / 60, 0)}\u00a0min`;
const seconds = (value: Params[string] | undefined) => `${number(value, 0)}\u00a0s`;
const percent = (value: Params[string] | undefined, decimals = 1) => `${number(100 * Number(value), decimals)}\u00a0%`;
const of = (what: Params[string] | undefined) => (what ? ` (${what})` : '');

const methodName = (code: Params[string] | undefined) => methodNamesFr[code as MethodSet] ?? String(code);

export const missingFr: typeof missingEn = {
  notDefinedByMethod: (p) => `La méthode «\u202f${methodName(p.method)}\u202f» ne définit pas ce résultat.`,
  noWaterTemperature: () =>
    'Aucune sonde d’eau n’a donné de mesure utilisable. Donnez le rôle «\u202feau\u202f» à une voie, ou marquez les moments à la main.',
  litUnknown: () => 'On ne sait pas quand le feu a été allumé. Marquez «\u202fallumé\u202f».',
  fireOutUnknown: () => 'On ne sait pas quand le feu a pris fin. Marquez «\u202ffeu éteint\u202f».',
  noWaterTempAtLit: () =>
    'La température de l’eau à l’allumage n’est pas connue. Enregistrez avant d’allumer, ou notez la température avec la première pesée de l’eau.',
  noWaterTempAtEnd: () =>
    'La température de l’eau à la fin du feu n’est pas connue. Laissez les sondes jusque-là, ou notez la température avec la dernière pesée de l’eau.',
  targetNotReached: (p) =>
    p.targetTempC === undefined
      ? 'La cible n’a pas été atteinte.'
      : `La cible n’a pas été atteinte\u202f: l’eau est montée à ${degrees(p.highestTempC)}, la cible est ${degrees(p.targetTempC)}.`,
  targetAlreadyReached: (p) =>
    `L’eau était à ${degrees(p.startTempC)} à l’allumage, et la cible est ${degrees(p.targetTempC)}\u202f: il n’y avait rien à chauffer. Vérifiez la cible et le repère «\u202fallumé\u202f».`,
  targetAboveBoiling: (p) =>
    `La cible de ${degrees(p.targetTempC)} ne peut pas être atteinte\u202f: ici l’eau bout à ${degrees(p.boilingTempC)}. Choisissez l’ébullition comme cible.`,
  targetBelowBoil: (p) =>
    `Cet essai avait ${degrees(p.targetTempC)} pour cible\u202f; l’eau n’a pas été portée à ébullition.`,
  boilingPointUnknown: () =>
    'Le point d’ébullition local n’est pas connu. Entrez la pression de l’air sur place (non ramenée au niveau de la mer) ou l’altitude.',
  crossingInGap: (p) =>
    `La cible a été franchie pendant une lacune de ${minutes(p.gapS)} dans les mesures. Marquez «\u202fcible atteinte\u202f».`,
  noRise: () => 'L’eau ne s’est pas réchauffée\u202f; il n’y a rien par quoi diviser.',
  waterNotWeighedBefore: () =>
    'L’eau n’a pas été pesée avant l’essai. Entrez sa masse, ou son volume et sa température.',
  waterNotWeighedAfter: () =>
    'L’eau n’a pas été pesée après l’essai. Entrez sa masse, ou son volume et sa température.',
  waterPending: () => 'L’eau reste à peser.',
  moreWaterLeftThanBrought: (p) =>
    `Il reste plus d’eau qu’il n’en a été mis (${kg(p.kg)} de plus). Vérifiez les pesées de l’eau et l’eau ajoutée.`,
  fuelNotWeighed: (p) =>
    `Le combustible brûlé${of(p.lot)} n’est pas connu. Pesez le tas avant et après, ou donnez une masse à chaque recharge.`,
  fuelPending: (p) => `Le combustible${of(p.lot)} reste à peser.`,
  moreFuelLeftThanBrought: (p) =>
    `Il reste plus de combustible${of(p.lot)} qu’il n’en a été apporté (${kg(p.kg)} de plus). Vérifiez le tas avant et après.`,
  charNotWeighed: () =>
    'Le charbon restant n’a pas été pesé. Entrez sa masse (0 s’il n’y en avait pas), ou dites qu’il sera pesé plus tard.',
  charExceedsFuel: (p) =>
    `Le charbon contiendrait plus de chaleur (${number(p.charMJ, 1)}\u00a0MJ) que le combustible brûlé (${number(p.fuelMJ, 1)}\u00a0MJ). Vérifiez les deux pesées.`,
  fuelTooWet: (p) =>
    `Un combustible à ${percent(p.moistureWet, 0)} d’humidité ne donne pas de chaleur. Vérifiez l’humidité et sa base.`,
  holdNotAsked: () => 'Aucun maintien n’était demandé.',
  holdNotReached: () => 'Le maintien n’a jamais commencé, car la cible n’a pas été atteinte.',
  holdNotKept: (p) => `Le maintien n’a pas été tenu\u202f: ${minutes(p.countedS)} comptées sur ${minutes(p.neededS)}.`,
  feedsNotWeighed: () => 'Le combustible d’une partie de l’essai demande chaque recharge avec sa masse.',
  fireboxUnknown: (p) =>
    `Ce qui restait dans le foyer aux bords de cette partie n’est connu qu’à ${kg(p.standardUncertaintyKg)} près, trop pour ${kg(p.kg)} de combustible. Videz et pesez à ce moment, ou chargez moins à la fois.`,
  noAttention: () => 'Aucune recharge, aucun tisonnage, couvercle ni rallumage n’a été marqué.',
  noFeedBeforeTarget: () => 'Aucune recharge n’a été marquée entre l’allumage et la cible.',
  feedsTooClose: () => 'La vitesse de chauffe n’est jamais revenue avant la cible ou la fin.',
  readingsTooFarApart: (p) =>
    `L’eau a été lue toutes les ${minutes(p.apartS)}\u202f; pour voir la reprise après une recharge, il faut une lecture par minute.`,
  noFlueTemperature: () => 'Il n’y a pas de sonde dans le conduit.',
  noGasFraction: () => 'Il n’y a pas de mesure utilisable d’oxygène ou de dioxyde de carbone des fumées.',
  tooFewBodyProbes: (p) =>
    `La chaleur du corps du foyer demande au moins deux sondes de corps\u202f; il y en a ${p.count}.`,
  noBodyMass: () => 'La masse du corps du foyer n’est pas connue. Entrez-la avec la révision.',
  noCooling: () =>
    'La marmite n’a pas refroidi vingt minutes et de 2\u00a0K hors du feu, sondes dedans. Marquez «\u202fMarmite retirée\u202f», et laissez-la refroidir une fois.',
  nothingBurnt: () =>
    'C’est un refroidissement\u202f: rien n’a brûlé, seule la perte de chaleur de la marmite est donnée.',
  windowEmpty: () => 'La fin de cette partie est avant son début. Vérifiez les repères.',
  notComputable: () => 'Les nombres donnés ne mènent à aucun résultat. Vérifiez les pesées et les repères.',
};

export const defaultsFr: typeof defaultsEn = {
  probeClass: (p) =>
    `Sonde ${p.channel}\u202f: classe de tolérance ${p.toleranceClass} supposée, ±${kelvins(p.halfWidthK)} près de l’ébullition.`,
  probeUncertainty: (p) => `Sonde ${p.channel}\u202f: ±${kelvins(p.halfWidthK)} supposés.`,
  coldJunctionUncertainty: (p) =>
    `Sonde ${p.channel}\u202f: soudure froide supposée connue à ${kelvins(p.standardUncertaintyK)} (incertitude-type).`,
  probeLag: (p) => `Le retard des sondes d’eau n’est pas connu\u202f: de rien à ${seconds(p.longestS)}.`,
  singleProbe: (p) =>
    `Une seule sonde pour toute la marmite\u202f: incertitude-type de ${kelvins(p.standardUncertaintyK)} supposée pour les couches.`,
  layers: (p) =>
    `Eau en couches écartées de ${kelvins(p.spreadK)}\u202f: la moyenne des sondes vaut pour celle de l’eau, à ${percent(p.weight, 0)} de l’écart près.`,
  plateauLevel: (p) =>
    `L’eau qui bout est supposée près du point d’ébullition de sa surface, connu à ${kelvins(p.standardUncertaintyK, 2)}.`,
  litUncertainty: (p) => `Le repère «\u202fallumé\u202f» est supposé connu à ${seconds(p.standardUncertaintyS)}.`,
  litDetected: (p) => `L’allumage a été trouvé dans les courbes, connu à ${seconds(p.standardUncertaintyS)}.`,
  fireOutUncertainty: (p) =>
    `Le repère «\u202ffeu éteint\u202f» est supposé connu à ${seconds(p.standardUncertaintyS)}.`,
  fireOutDetected: (p) => `La fin du feu a été trouvée dans les courbes, connue à ${seconds(p.standardUncertaintyS)}.`,
  targetMarkUncertainty: (p) =>
    `Le repère «\u202fcible atteinte\u202f» est supposé connu à ${seconds(p.standardUncertaintyS)}.`,
  pressureUncertainty: (p) =>
    `Pression de l’air supposée connue à ${number(Number(p.standardUncertaintyPa) / 100, 1)}\u00a0hPa.`,
  altitudeUncertainty: (p) => `Altitude supposée connue à ${number(p.standardUncertaintyM, 0)}\u00a0m.`,
  weather: (p) =>
    `Le temps qu’il fait déplace la pression de ${number(Number(p.standardUncertaintyPa) / 100, 0)}\u00a0hPa (incertitude-type supposée).`,
  scaleUncertainty: (p) =>
    `Balance${p.scale ? ` ${p.scale}` : ''}\u202f: lecture connue à ${grams(p.readingKg)}, gain à ${percent(p.gain)}, tare à ${grams(p.zeroKg)}.`,
  volumeUncertainty: (p) => `Volume supposé connu à ${kg(p.standardUncertaintyKg)}.`,
  readAtTemp: (p) => `Volume supposé lu à ${degrees(p.tempC)}.`,
  moisture: (p) =>
    `Humidité de ${p.lot} non mesurée\u202f: ${percent(p.fraction, 0)} sur base humide supposés, connus à ${percent(p.standardUncertainty, 0)} (points).`,
  moistureUncertainty: (p) =>
    `Humidité de ${p.lot} supposée connue à ${percent(p.standardUncertainty)} (points), selon la façon de la mesurer.`,
  heatingValue: (p) =>
    `Pouvoir calorifique de ${p.lot} non indiqué\u202f: ${number(p.MJPerKg, 1)}\u00a0MJ/kg inférieur sec, connu à ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  heatingValueUncertainty: (p) =>
    `Pouvoir calorifique de ${p.lot} supposé connu à ${number(p.standardUncertaintyMJPerKg, 2)}\u00a0MJ/kg.`,
  hydrogen: (p) => `Hydrogène de ${p.lot}\u202f: ${number(p.percent, 1)}\u00a0% de la masse sèche supposés.`,
  charHeatingValue: (p) =>
    `Pouvoir calorifique du charbon restant\u202f: ${number(p.MJPerKg, 1)}\u00a0MJ/kg supposés, connus à ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  charHeatingValueUncertainty: (p) =>
    `Pouvoir calorifique du charbon restant supposé connu à ${number(p.standardUncertaintyMJPerKg, 1)}\u00a0MJ/kg.`,
  charBurnsOn: (p) =>
    `Le charbon continue de brûler jusqu’à sa pesée\u202f: jusqu’à ${grams(p.mostKg)} de plus à la fin du feu.`,
  kindlingAllBurnt: (p) => `${p.lot}\u202f: tout est supposé brûlé, rien n’ayant été pesé ensuite.`,
  brandsMoisture: () =>
    'Humidité des tisons non mesurée\u202f: on leur suppose entre rien et la totalité de leur eau (usage courant, sans source).',
  brandsMoistureUncertainty: (p) =>
    `Humidité des tisons supposée connue à ${percent(p.standardUncertainty)} près (points), d’après la façon de la mesurer.`,
  coolingBeforeWeighing: (p) => `Jusqu’à ${grams(p.mostKg)} d’eau supposés perdus entre la fin du feu et la pesée.`,
  steamedCooling: (p) => `Jusqu’à ${grams(p.mostKg)} d’eau supposés évaporés pendant le refroidissement.`,
  carriedOutWater: (p) => `Eau emportée avec le contenu non indiquée\u202f: jusqu’à ${kg(p.mostKg)}.`,
  contentsLag: (p) =>
    `${p.content}\u202f: ni rayon ni sonde à cœur, le retard sur l’eau n’est donc pas connu\u202f; la chaleur peut être moindre.`,
  contentsMassUncertainty: (p) => `${p.content}\u202f: masse supposée connue à ${grams(p.standardUncertaintyKg)}.`,
  goodsSpecificHeat: (p) => `Chaleur massique du contenu\u202f: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) supposés.`,
  airTemp: (p) => `Température de l’air non indiquée\u202f: ${degrees(p.tempC)} supposés.`,
  vesselSpecificHeat: (p) => `Chaleur massique de la marmite\u202f: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) supposés.`,
  bodySpecificHeat: (p) => `Chaleur massique du corps du foyer\u202f: ${number(p.JPerKgK, 0)}\u00a0J/(kg·K) supposés.`,
  startTempFromWeighing: (p) =>
    `Eau à l’allumage prise à ${degrees(p.tempC)}, température notée avec la première pesée, connue à ${kelvins(p.standardUncertaintyK)}.`,
  endTempFromWeighing: (p) =>
    `Eau à la fin du feu prise à ${degrees(p.tempC)}, température notée avec la dernière pesée, connue à ${kelvins(p.standardUncertaintyK)}.`,
  siegert: (p) => `Coefficient des pertes par les fumées pour le bois sec\u202f: ${number(p.a1, 2)}.`,
};

export const remarksFr: typeof remarksEn = {
  ...contradictionsFr,
  potOnOffset: (p) =>
    Number(p.offsetS) > 0
      ? `La marmite a été posée ${seconds(p.offsetS)} après l’allumage\u202f; le temps compte depuis l’allumage.`
      : `La marmite était posée ${seconds(-Number(p.offsetS))} avant l’allumage\u202f; le temps compte depuis l’allumage.`,
  boilingPointFromPressureChannel: (p) =>
    `Point d’ébullition d’après la pression enregistrée, ${number(Number(p.pressurePa) / 100, 1)}\u00a0hPa.`,
  boilingPointFromPressure: (p) =>
    `Point d’ébullition d’après la pression de l’air sur place, ${number(Number(p.pressurePa) / 100, 1)}\u00a0hPa.`,
  boilingPointFromAltitude: (p) =>
    `Point d’ébullition d’après l’altitude par l’atmosphère type, ${number(Number(p.pressurePa) / 100, 0)}\u00a0hPa\u202f; le temps du jour n’y est pas.`,
  boilingPointFromPlateau: (p) =>
    `Le palier à ${degrees(p.levelC)} définit le point d’ébullition. Il ne peut pas en plus corriger les sondes.`,
  plateauCalibratesProbes: (p) =>
    `Le palier à ${degrees(p.levelC)} corrige les sondes. Il ne peut pas en plus définir le point d’ébullition.`,
  plateauNotUsed: (p) =>
    `Le palier à ${degrees(p.levelC)} est trop loin du point d’ébullition de ${degrees(p.boilingTempC)} pour être l’ébullition.`,
  stalledBelowBoil: (p) =>
    `Le palier à ${degrees(p.levelC)} répond aux recharges\u202f: la marmite plafonnait sans bouillir (point d’ébullition ${degrees(p.boilingTempC)}).`,
  targetFromMark: () => 'Le moment de la cible est celui que la personne a marqué.',
  crossingBetweenReadings: (p) =>
    `La cible a été passée entre deux lectures distantes de ${minutes(p.apartS)}\u202f; l’intervalle en tient compte. Lisez plus souvent près de la cible.`,
  stillFetching: () =>
    'Des relevés de cet essai sont encore redemandés à la carte\u202f: les résultats peuvent changer jusqu’à leur arrivée, ou jusqu’à ce qu’ils soient déclarés manquants.',
  crossingInShortGap: (p) =>
    `La cible a été franchie pendant une lacune de ${seconds(p.gapS)}\u202f; l’intervalle en tient compte.`,
  boilUncertain: () =>
    'L’eau est restée si près de la limite qu’avec d’autres erreurs de sonde elle ne compterait pas comme bouillante.',
  charPending: (p) =>
    `Le charbon reste à peser\u202f: de rien à ${kg(p.mostKg)} ont été admis. Le résultat sera alors plus précis.`,
  feedsDisagreeWithPile: (p) =>
    `Les recharges de ${p.lot} font ${kg(p.feedsKg)}, le tas a perdu ${kg(p.pileKg)}. Le tas fait foi\u202f; une recharge manque peut-être ou compte double.`,
  fuelFromFeeds: (p) => `Combustible de ${p.lot} d’après les recharges\u202f; une recharge non marquée manquerait.`,
  unweighedFeeds: (p) => `Certaines recharges de ${p.lot} n’ont pas de masse\u202f; le tas fait foi.`,
  lotWithoutMass: (p) => `${p.lot} n’a pas de masse et n’est pas compté.`,
  slightlyNegativeEvaporation: (p) =>
    `${grams(-Number(p.kg))} d’eau de plus après qu’avant, dans ce que la balance peut distinguer\u202f: rien ne s’est évaporé.`,
  steamIsHalf: (p) =>
    `${percent(p.share, 0)} de la chaleur utile est de la vapeur. Un foyer qui bout plus fort paraît meilleur ici tout en brûlant plus de bois\u202f; comparez le bois par fournée.`,
  vesselHeatApart: (p) => `La marmite a pris ${number(p.MJ, 2)}\u00a0MJ, non comptés comme utiles.`,
  contentsOneSided: (p) =>
    `${p.content}\u202f: en retard sur l’eau\u202f; sans sonde à cœur, la chaleur est une borne supérieure.`,
  carriedOutWaterUnknown: () =>
    'L’eau emportée par un contenu mouillé ressemble à de la vapeur. Pesez ce contenu mouillé, puis sec.',
  weighedAfterCooling: (p) =>
    `L’eau a refroidi de ${kelvins(p.cooledK, 0)} sans couvercle avant la pesée\u202f; ce qui est parti ressemble à de la vapeur du feu. Pesez couvercle mis.`,
  holdPartlyUnread: (p) =>
    `Rien n’a été lu pendant ${seconds(p.unreadS)} du maintien\u202f; l’eau était à sa température avant et après, ce temps compte donc.`,
  holdShort: (p) =>
    `Le maintien compte ${seconds(p.countedS)} sur ${seconds(p.neededS)}\u202f: tenu autant que son début et sa fin sont connus, à ${seconds(p.toleranceS)} près.`,
  targetWithinProbes: (p) =>
    `Les sondes sont restées ${kelvins(p.shortK)} sous la cible, ce qui est dans les limites de ce qu’elles peuvent dire (${kelvins(p.marginK)}). Le moment est celui où l’eau s’en est approchée le plus durablement.`,
  probesDisagree: (p) =>
    `Les sondes de l’eau différaient de ${kelvins(p.differenceK)} avant que le feu ne chauffe, ${number(p.ratio, 1)} fois ce que leurs erreurs connues permettent\u202f; leur incertitude est multipliée d’autant. L’une d’elles est fausse\u202f: tenez-les toutes dans une même eau bouillante.`,
  holdNotProven: (p) =>
    `Le maintien a été tenu autant que les sondes peuvent le dire\u202f; pour en être sûr, il faudrait lire ${kelvins(p.marginK)} de plus.`,
  firebox: (p) =>
    `${kg(p.kg)} de combustible dans cette partie, connus à ${kg(p.standardUncertaintyKg)} à cause de ce qui restait dans le foyer.`,
  stoveOnScale: (p) =>
    `${kg(p.kg)} de combustible dans cette partie d’après la balance sous le foyer, connus à ${kg(p.standardUncertaintyKg)}.`,
  maximum: () => 'Une durée maximale est un événement unique\u202f; comparez-la avec prudence.',
  rough: () => 'Approximatif\u202f: quelques sondes représentent un corps chaud par endroits et frais ailleurs.',
  noDip: () => 'La vitesse de chauffe n’a pas baissé après les recharges.',
  temperatureCorrected: (p) =>
    `Pour une montée de 75\u00a0K au lieu de ${number(p.riseK, 1)}\u00a0K\u202f: ${number(p.corrected, Math.abs(Number(p.corrected)) < 10 ? 4 : 0)}.`,
  holdRuleAssumed: () => 'Aucune règle de maintien n’a été fixée avant l’allumage\u202f; une baisse suspend le compte.',
  fromMemory: () =>
    'Le texte publié de cette méthode n’a pas pu être consulté\u202f: sa formule et ses constantes figurent dans le calcul.',
  hotStart: () =>
    'Départ à chaud\u202f: le corps du foyer était chaud à l’allumage. À comparer aux départs à chaud seulement.',
  startKindUnknown: () =>
    'Il n’est pas dit si le foyer était froid ou chaud à l’allumage\u202f; les deux ne sont jamais mêlés.',
  onlyOneProbeLeft: (p) => `Une seule sonde d’eau compte\u202f: ${p.channel}.`,
  recordingStartedAfterLit: (p) =>
    `Le premier relevé de l’eau est venu ${seconds(p.afterS)} après le début de la chauffe\u202f; l’eau pouvait avoir déjà pris jusqu’à ${kelvins(p.mostK)}, et l’intervalle va d’autant plus loin.`,
  preservingJarTemperature: () =>
    'La température du bain n’est pas celle du bocal\u202f: le cœur d’un bocal est en retard de bien des minutes.',
  preservingLowAcid: () =>
    'L’eau bouillante ne rend pas sûrs les aliments peu acides (pH au-dessus de 4,6), si longtemps qu’on la maintienne. Ils demandent un procédé sous pression éprouvé.',
  preservingSchedule: () =>
    'Seul le barème éprouvé de votre autorité locale de sécurité des aliments décide si une conserve est sûre. Ces résultats ne sont pas un certificat de sécurité.',
};
