/** Ce qui ne s'accorde pas dans un essai, et où regarder : en français. */

import { type Params, writeNumber } from '../language.ts';
import type { contradictionsEn } from './contradictions.en.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('fr', Number(value), decimals);
const degrees = (value: Params[string] | undefined) => `${number(value, 1)}\u00a0°C`;
const minutes = (value: Params[string] | undefined) => `${number(Number(value) / 60, 0)}\u00a0min`;
const percent = (value: Params[string] | undefined, decimals = 0) => `${number(100 * Number(value), decimals)}\u00a0%`;

export const contradictionsFr: typeof contradictionsEn = {
  waterUnlikeProbesAtLighting: (p) =>
    `L’eau a été pesée à ${degrees(p.weighedC)}, et ses sondes lisaient ${degrees(p.probesC)} à l’allumage. Regardez la température de la première pesée, le repère «\u202fallumé\u202f» et l’endroit où étaient les sondes.`,
  waterHotterThanProbesAtEnd: (p) =>
    `L’eau restante a été pesée à ${degrees(p.weighedC)}, et ses sondes lisaient ${degrees(p.probesC)} quand le feu s’est éteint. Regardez la température de la dernière pesée et le repère «\u202ffeu éteint\u202f».`,
  efficiencyAboveAny: (p) =>
    `${percent(p.value)}, c’est plus qu’aucun foyer n’atteint (environ ${percent(p.limit)})\u202f: il y a plus de chaleur dans l’eau que le bois n’a pu en donner. Regardez le bois et l’eau pesés, avant et après, et l’humidité du bois.`,
  efficiencyBelowZero: (p) =>
    `${percent(p.value, 1)}, c’est moins que rien\u202f: l’eau a fini plus froide qu’au début, ou plus lourde. Regardez l’eau pesée, avant et après, et les repères «\u202fallumé\u202f» et «\u202ffeu éteint\u202f».`,
  noCharAfterHours: (p) =>
    `Pas de charbon (0\u00a0kg) après ${minutes(p.burntS)} et ${number(p.woodKg, 1)}\u00a0kg de bois\u202f: un feu qu’on retire en laisse. Regardez la pesée du charbon\u202f; elle n’est juste que si tout est parti en cendres.`,
  moistureMeterWet: (p) =>
    `Humidité de ${p.lot}\u202f: ${percent(p.fraction)} à l’humidimètre, rapportés à la masse humide\u202f; ces appareils la rapportent d’ordinaire à la masse sèche, et c’est alors ${percent(p.otherwise, 1)} de la masse humide. Regardez ce que montre votre appareil.`,
  moistureWetLikeGreen: (p) =>
    `Humidité de ${p.lot}\u202f: ${percent(p.fraction)} de la masse humide, c’est du bois vert, qui ne brûle guère\u202f; de la masse sèche, ce serait ${percent(p.otherwise, 1)} de la masse humide. Regardez laquelle des deux était voulue.`,
  litBeforeReadings: (p) =>
    `«\u202fAllumé\u202f» se trouve ${minutes(p.beforeS)} avant la première mesure\u202f: rien n’a mesuré l’eau à l’allumage. Regardez le repère «\u202fallumé\u202f».`,
  probeAboveBoil: (p) =>
    `La sonde ${p.channel} est restée ${number(p.overK, 1)}\u00a0K au-dessus du point d’ébullition du lieu, où il n’y a pas d’eau\u202f: c’est elle qui est douteuse. Tenez-la avec les autres dans l’eau bouillante, et étalonnez-la.`,
  probeBelowBoil: (p) =>
    `La sonde ${p.channel} est restée ${number(p.underK, 1)}\u00a0K au-dessous du point d’ébullition du lieu alors qu’une autre montrait l’ébullition\u202f: c’est elle qui est douteuse. Tenez-la avec les autres dans l’eau bouillante, et étalonnez-la.`,
  waterAboveBoil: (p) =>
    `Toutes les sondes d’eau sont restées ${number(p.overK, 1)}\u00a0K ou plus au-dessus du point d’ébullition du lieu, ${degrees(p.boilingTempC)}\u202f: l’eau ne peut être si chaude dans une marmite ouverte. Regardez la pression ou l’altitude du lieu, et l’étalonnage des sondes.`,
};
