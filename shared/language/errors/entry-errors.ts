/** Errors about what is entered in a burn: marks, weighings, excluded stretches, photos. */
import { type Language, writeNumber } from '../language.ts';
import type { ErrorEntry } from './error-entry.ts';

const kg: Record<Language, (value: string | number | undefined) => string> = {
  en: (value: string | number | undefined) => `${writeNumber('en', Number(value), 2)} kg`,
  fr: (value: string | number | undefined) => `${writeNumber('fr', Number(value), 2)}\u00a0kg`,
};

const unitWords: Record<string, string> = { Cel: '°C', kg: 'kg', Pa: 'Pa', '%': '%' };

export const entryErrors = {
  'mark/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no mark with the identifier ${p.id} in this burn.`,
    fr: (p) => `Aucun repère de cet essai n’a l’identifiant ${p.id}.`,
  },
  'mark/not-started': {
    status: 409,
    exitCode: 1,
    en: () => 'This burn has not started, so a mark has no moment yet. Start the burn first.',
    fr: () => 'Cet essai n’a pas commencé\u202f: un repère n’a pas encore de moment. Démarrez-le d’abord.',
  },
  'mark/in-the-future': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `This mark lies ${writeNumber('en', Number(p.aheadS), 0)} s in the future. Give a moment that has passed.`,
    fr: (p) => `Ce repère est ${writeNumber('fr', Number(p.aheadS), 0)}\u00a0s dans l’avenir. Donnez un moment passé.`,
  },
  'mark/unknown-channel': {
    status: 400,
    exitCode: 1,
    en: (p) => `This burn has no probe with the identifier ${p.id}.`,
    fr: (p) => `Aucune sonde de cet essai n’a l’identifiant ${p.id}.`,
  },
  'mark/not-hand-read': {
    status: 400,
    exitCode: 1,
    en: (p) => `${p.name} is not read by hand in this burn. Choose a probe that you read yourself.`,
    fr: (p) => `${p.name} ne se lit pas à la main dans cet essai. Choisissez une sonde que vous lisez vous-même.`,
  },
  'mark/reading-impossible': {
    status: 400,
    exitCode: 1,
    en: (p) => {
      const figure = (value: string | number | undefined) =>
        `${writeNumber('en', Number(value), 1)} ${unitWords[String(p.unit)]}`;
      return `${p.name} cannot be at ${figure(p.value)}: it lies between ${figure(p.low)} and ${figure(p.high)}. Look at the dial again, and at the decimal mark.`;
    },
    fr: (p) => {
      const figure = (value: string | number | undefined) =>
        `${writeNumber('fr', Number(value), 1)}\u00a0${unitWords[String(p.unit)]}`;
      return `${p.name} ne peut pas être à ${figure(p.value)}\u202f: cela va de ${figure(p.low)} à ${figure(p.high)}. Regardez de nouveau le cadran, et la virgule.`;
    },
  },
  'weighing/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no weighing with the identifier ${p.id} in this burn.`,
    fr: (p) => `Aucune pesée de cet essai n’a l’identifiant ${p.id}.`,
  },
  'weighing/mass-missing': {
    status: 400,
    exitCode: 1,
    en: () => 'This weighing has no mass. Enter the mass, or mark it as still to be weighed.',
    fr: () => 'Cette pesée n’a pas de masse. Saisissez-la, ou indiquez qu’elle reste à peser.',
  },
  'weighing/pending-with-mass': {
    status: 400,
    exitCode: 1,
    en: () => 'This weighing has a mass and is marked as still to be weighed. Leave one of the two out.',
    fr: () => 'Cette pesée a une masse et est indiquée comme restant à peser. Ne gardez que l’un des deux.',
  },
  'weighing/volume-not-water': {
    status: 400,
    exitCode: 1,
    en: () => 'Only water can be given as a volume. Enter the mass in kilograms.',
    fr: () => 'Seule l’eau peut être donnée en volume. Saisissez la masse en kilogrammes.',
  },
  'weighing/moisture-not-brands': {
    status: 400,
    exitCode: 1,
    en: () => 'A weighing can only state the moisture of half-burnt wood. Enter that of other wood with its lot.',
    fr: () => 'Une pesée ne peut indiquer que l’humidité des tisons. Saisissez celle d’un autre bois avec son lot.',
  },
  'weighing/two-amounts': {
    status: 400,
    exitCode: 1,
    en: () => 'This weighing has both a mass and a volume. Enter only the one that was measured.',
    fr: () => 'Cette pesée a une masse et un volume. Ne gardez que ce qui a été mesuré.',
  },
  'weighing/more-fuel-left': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `More is left than was brought: ${kg.en(p.leftKg)} of ${kg.en(p.broughtKg)}. Check both weighings, and that the container was taken off each time.`,
    fr: (p) =>
      `Il reste plus que ce qui a été apporté\u202f: ${kg.fr(p.leftKg)} sur ${kg.fr(p.broughtKg)}. Vérifiez les deux pesées, et que le contenant a été déduit chaque fois.`,
  },
  'weighing/more-water-left': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `More water is left than was put in: ${kg.en(p.leftKg)} of ${kg.en(p.broughtKg)}. Check both weighings and any water added, and that the pot was taken off each time.`,
    fr: (p) =>
      `Il reste plus d’eau qu’on n’en a mis\u202f: ${kg.fr(p.leftKg)} sur ${kg.fr(p.broughtKg)}. Vérifiez les deux pesées et l’eau ajoutée, et que la marmite a été déduite chaque fois.`,
  },
  'exclusion/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no excluded stretch with the identifier ${p.id} in this burn.`,
    fr: (p) => `Aucun passage écarté de cet essai n’a l’identifiant ${p.id}.`,
  },
  'exclusion/backwards': {
    status: 400,
    exitCode: 1,
    en: () => 'The stretch to exclude ends before it starts. Swap the two moments.',
    fr: () => 'Le passage à écarter finit avant de commencer. Échangez les deux moments.',
  },
  'photo/not-a-photo': {
    status: 400,
    exitCode: 1,
    en: () => 'This is not a photo that every browser can show. Choose a JPEG, PNG or WebP file.',
    fr: () => 'Ce n’est pas une photo que tout navigateur puisse montrer. Choisissez un fichier JPEG, PNG ou WebP.',
  },
  'photo/too-large': {
    status: 413,
    exitCode: 1,
    en: (p) => `This photo is larger than ${p.limitMb} MB. Choose a smaller one.`,
    fr: (p) => `Cette photo dépasse ${p.limitMb}\u00a0Mo. Choisissez-en une plus petite.`,
  },
  'photo/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no photo named ${p.name}.`,
    fr: (p) => `Il n’y a pas de photo nommée ${p.name}.`,
  },
} satisfies Record<string, ErrorEntry>;
