/** The sentences of a ladder of revisions and of the next test, in French. */

import type { Params, Sentence } from '../language.ts';
import { capital, change, confidence, days, name, noLimits, span, sure } from './changes.fr.ts';
import { thingNames } from './comparison.fr.ts';
import type { ladderEn } from './ladder.en.ts';

export const ladderFr: Record<keyof typeof ladderEn, Sentence> = {
  'step/better': (p) =>
    `${capital(String(p.second))}\u202f: mieux que ${p.first}\u202f; ${change(p)} (${sure(p)}\u202f: ${span(p)}).`,
  'step/worse': (p) =>
    `${capital(String(p.second))}\u202f: moins bien que ${p.first}\u202f; ${change(p)} (${sure(p)}\u202f: ${span(p)}).`,
  'step/cannotTell': (p) =>
    `${capital(String(p.second))} contre ${p.first}\u202f: on ne peut pas encore dire\u202f; ${change(p)} observé, mais tout ce qui se trouve ${span(p)} convient (${sure(p)}).`,
  'step/noLimits': (p) =>
    `${capital(String(p.second))} contre ${p.first}\u202f: on ne peut pas encore dire\u202f; ${change(p)} observé, mais ${noLimits(p)}.`,
  'step/differs': (p) =>
    `${capital(String(p.second))} contre ${p.first}\u202f: ${change(p)} (${sure(p)}\u202f: ${span(p)}), en soi ni mieux ni moins bien.`,
  'step/figures': (p) =>
    `${capital(String(p.second))} contre ${p.first}\u202f: ${change(p)} observé${p.why === undefined ? '' : `, mais ${p.why}`}`,
  'step/together': (p) =>
    `${p.count} choses ont changé à la fois (${togetherNames(p)})\u202f: n’en changez qu’une pour savoir laquelle a compté.`,

  'best/one': (p) =>
    `${capital(String(p.seen))}\u202f: la meilleure de ces ${p.of}\u202f; toutes les autres sont moins bonnes.`,
  'best/several': (p) =>
    `Peut-être la meilleure\u202f: ${p.names}. La meilleure vue est ${p.seen}\u202f; les essais ne les distinguent pas d’elle.`,

  'effect/of': (p) =>
    `${p.name}, ${p.of === 'm' ? '1\u00a0cm' : '100\u00a0cm²'} de plus\u202f: ${name(p)}, ${change(p)} (${confidence(p.confidence)}\u202f: ${span(p)}), pour autant que les révisions seules le disent.`,
  'effect/notEverywhere': (p) =>
    `On ne peut dire l’effet d’aucune cote\u202f: ${p.name} n’est pas notée pour chaque révision.`,
  'effect/tooFewRevisions': (p) =>
    `On ne peut dire l’effet d’aucune cote\u202f: ${Number(p.dimensions) === 1 ? 'une cote a changé' : `${p.dimensions} cotes ont changé`} en ${p.revisions} révisions, et il en faut ${p.needed} pour distinguer cela de ce qui diffère par ailleurs.`,
  'effect/inseparable': (p) =>
    `On ne peut dire l’effet d’aucune cote\u202f: ${p.names} ont toujours changé ensemble. N’en changez qu’une pour savoir.`,

  'narrow/asItIs': (p) =>
    `En l’état\u202f: ${span(p)} (à ${confidence(p.confidence)} de confiance, pour un seul regard).`,
  'narrow/anotherDay': (p) => `Un jour de plus de ${p.side}\u202f: alors ${span(p)}.`,
  'narrow/oneLot': (p) => `Du bois d’un même lot pour les deux\u202f: alors ${span(p)}.`,
  'narrow/charWeighed': (p) => `Le charbon de chaque essai pesé\u202f: alors ${span(p)}.`,
  'narrow/probesCalibrated': (p) => `Les sondes d’eau étalonnées\u202f: alors ${span(p)}.`,

  'next/days': (p) =>
    `Pour montrer quatre fois sur cinq une différence de ${confidence(p.worth)}\u202f: ${days(p.likely)} de chaque, de ${p.low} à ${p.high}, avec la dispersion d’un jour à l’autre que ce foyer a montrée.`,
  'next/daysOpen': (p) =>
    `Pour montrer quatre fois sur cinq une différence de ${confidence(p.worth)}\u202f: ${days(p.low)} de chaque ou bien davantage\u202f; la dispersion est encore mal connue.`,
  'next/noNumber': (p) =>
    `Aucun nombre de jours ne montrera une différence de ${confidence(p.worth)}\u202f: les lots de bois que les deux n’ont pas en commun sont trop incertains. Essayez les deux avec un même lot.`,
  'next/noNumberForScatter': (p) =>
    `Même deux cents jours de chacune ne montreront pas une différence de ${confidence(p.worth)}\u202f: les jours de ce foyer diffèrent trop entre eux. Cherchez une saisie fausse, ou travaillez avec plus de régularité.`,
  'next/scatterUnknown': () =>
    'On ne peut pas encore dire combien de jours il faut\u202f: essayez une révision deux jours ou plus, et leur dispersion le dira. Trois jours de chaque sont le moins qui vaille d’être prévu.',
  'next/several': (p) =>
    `${p.count} choses changeraient à la fois (${p.names}). Quoi qu’il en sorte, nul ne saura laquelle a compté\u202f: n’en changez qu’une pour savoir.`,
  'next/oneThing': () =>
    'Une seule chose change\u202f: ce qui en sort lui revient, pour autant que les jours se ressemblent.',
  'next/nothingNamed': () => 'Notez ce qui changerait, chaque partie à part, pour voir avec quoi on le confondrait.',
  'next/lotsApart': () =>
    'Aucun lot ne suffit pour un jour de chaque\u202f: le bois et le foyer changeraient ensemble. Partagez un lot pour qu’il serve aux deux.',
  'next/lotsShort': (p) =>
    `Le bois nommé suffit pour ${days(p.lasts)} sur ${p.needed}. Trouvez pour le reste un lot qui serve aux deux révisions.`,
  'next/lotsUnknown': () => 'Prenez le bois de chaque paire de jours dans un même lot, pour qu’il s’annule.',
  'next/alternate': () =>
    'Les révisions alternent d’un jour à l’autre, pour que la saison, le bois et le savoir-faire tombent sur les deux. Ce qui a été essayé avant est déjà compté\u202f: ces jours s’y ajoutent.',
  'next/operator': () => 'La même personne conduit le feu tous ces jours, ou les deux se relaient dans chaque paire.',
};

function togetherNames({ count, dimensions, apart }: Params): string {
  const others =
    apart === ''
      ? []
      : String(apart)
          .split(',')
          .map((kind) => (thingNames[kind] ?? kind).toLowerCase());
  const built = dimensions === '' ? 'le foyer' : String(dimensions);
  return [...(Number(count) > others.length ? [built] : []), ...others].join(', ');
}
