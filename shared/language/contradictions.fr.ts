/** Ce qui ne s'accorde pas dans une flambée, et où regarder : en français. */
import type { contradictionsEn } from './contradictions.en.ts';
import { type Params, writeNumber } from './language.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('fr', Number(value), decimals);
const degrees = (value: Params[string] | undefined) => `${number(value, 1)}\u00a0°C`;
const minutes = (value: Params[string] | undefined) => `${number(Number(value) / 60, 0)}\u00a0min`;
const percent = (value: Params[string] | undefined, decimals = 0) => `${number(100 * Number(value), decimals)}\u00a0%`;

export const contradictionsFr: typeof contradictionsEn = {
  waterUnlikeProbesAtLighting: (p) =>
    `L’eau a été pesée à ${degrees(p.weighedC)}, et ses sondes lisaient ${degrees(p.probesC)} à l’allumage. Regardez la température de la première pesée, le repère «\u00a0allumé\u00a0» et l’endroit où étaient les sondes.`,
  waterHotterThanProbesAtEnd: (p) =>
    `L’eau restante a été pesée à ${degrees(p.weighedC)}, et ses sondes lisaient ${degrees(p.probesC)} quand le feu s’est éteint. Regardez la température de la dernière pesée et le repère «\u00a0feu éteint\u00a0».`,
  efficiencyAboveAny: (p) =>
    `${percent(p.value)}, c’est plus qu’aucun foyer n’atteint (environ ${percent(p.limit)})\u00a0: il y a plus de chaleur dans l’eau que le bois n’a pu en donner. Regardez le bois et l’eau pesés, avant et après, et l’humidité du bois.`,
  efficiencyBelowZero: (p) =>
    `${percent(p.value, 1)}, c’est moins que rien\u00a0: l’eau a fini plus froide qu’au début, ou plus lourde. Regardez l’eau pesée, avant et après, et les repères «\u00a0allumé\u00a0» et «\u00a0feu éteint\u00a0».`,
  noCharAfterHours: (p) =>
    `Pas de charbon (0\u00a0kg) après ${minutes(p.burntS)} et ${number(p.woodKg, 1)}\u00a0kg de bois\u00a0: un feu qu’on retire en laisse. Regardez la pesée du charbon\u00a0; elle n’est juste que si tout est parti en cendres.`,
  moistureMeterWet: (p) =>
    `Humidité de ${p.lot}\u00a0: ${percent(p.fraction)} à l’humidimètre, rapportés à la masse humide\u00a0; ces appareils la rapportent d’ordinaire à la masse sèche, et c’est alors ${percent(p.otherwise, 1)} de la masse humide. Regardez ce que montre votre appareil.`,
  moistureWetLikeGreen: (p) =>
    `Humidité de ${p.lot}\u00a0: ${percent(p.fraction)} de la masse humide, c’est du bois vert, qui ne brûle guère\u00a0; de la masse sèche, ce serait ${percent(p.otherwise, 1)} de la masse humide. Regardez laquelle des deux était voulue.`,
  litBeforeReadings: (p) =>
    `«\u00a0Allumé\u00a0» se trouve ${minutes(p.beforeS)} avant la première mesure\u00a0: rien n’a mesuré l’eau à l’allumage. Regardez le repère «\u00a0allumé\u00a0».`,
};
