/** En français : les options de cet appareil. */
import type { settingsEn } from './settings.en.ts';

export const settingsFr: typeof settingsEn = {
  settings: {
    title: 'Options de cet appareil',
    language: 'Langue',
    theme: 'Lumière',
    themes: { system: 'comme l’appareil', day: 'jour', night: 'nuit' },
    units: 'Unités',
    unitNames: { si: 'métriques (kg, °C)', usCustomary: 'américaines (lb, °F)' },
    sound: 'Son des alarmes',
    soundHelp: 'Un téléphone vibre aussi, avec ou sans son.',
    on: 'oui',
    off: 'non',
    person: 'Qui est au foyer',
    personHelp: 'Inscrit à côté de chaque repère posé sur cet appareil.',
    plain:
      'Cette page est venue par http simple\u202f: elle ne s’installe pas et ne s’ouvre pas sans le service. Ce que vous saisissez est tout de même gardé ici jusqu’à sa transmission.',
    stored:
      'Cette page est gardée sur cet appareil\u202f: elle s’ouvre même sans le service. Le menu du navigateur permet de la placer sur l’écran d’accueil.',
    refused:
      'Ce navigateur ne fait pas confiance au certificat de la machine du banc et ne garde donc pas cette page\u202f: elle ne s’ouvre pas sans le service. Approuvez le certificat dans les réglages de cet appareil, puis rechargez la page.',
    data: 'Données de ce banc',
    imports: 'Importer des données',
    backUp: 'Sauvegarder maintenant',
    backingUp: 'Sauvegarde en cours, puis vérification de chaque essai de la copie…',
    backUpHelp: 'Possible même pendant un essai.',
    backedUp: (p) =>
      `Sauvegardé à ${p.time} (${p.burns < 2 ? `${p.burns} essai` : `${p.burns} essais`}) sur la machine du banc, dans`,
    backedUpElsewhere: 'Copiez ce répertoire sur un autre disque\u202f: à côté de l’original, il brûle avec lui.',
    about: (p) => `Stovebench ${p.version}`,
  },
};
