/** Aide de la ligne de commande, en français. */
import type { commandLineEn } from './command-line.en.ts';

const common = `
  --data RÉPERTOIRE les données à utiliser\u202f; à défaut STOVEBENCH_DATA, sinon le répertoire de cet utilisateur
  --service URL     demander à ce service en marche\u202f; trouvé tout seul quand il tient les données
  --help            ce texte`;

export const commandLineFr: typeof commandLineEn = {
  overview: () => `usage\u202f: stovebench COMMANDE ...

  serve     lancer le service\u202f; l’adresse à ouvrir est la dernière ligne écrite
  ports     lister les ports série
  pair      un code pour laisser entrer un téléphone\u202f; les appareils entrés jusqu’ici
  watch     écrire les mesures comme elles viennent
  check-board
            ce qui ne va pas dans une carte, ses lignes et ses sondes
  flash     mettre le micrologiciel sur une carte
  analyse   les résultats d’un dossier d’essai
  compare   les essais d’une révision contre ceux d’une autre
  predict   ce que des essais disent d’une autre charge
  report    le rapport d’un essai, à imprimer ou à envoyer
  export    des essais en fichiers\u202f: paquet, dossier, tableaux, classeur, Parquet
  import    importer des essais, des tableaux d’autres enregistreurs ou des notes
  publish   les essais finis dans un répertoire, en un jeu de données que d’autres moteurs lisent
  backup    tout copier, même pendant un essai
  restore   remettre une sauvegarde en place, une fois qu’elle a fait ses preuves
  verify    vérifier la base, les mesures de chaque essai et ses résultats
  survey    des questions aux essais publiés de plusieurs bancs

  --version quelle version c’est

«\u202fstovebench COMMANDE --help\u202f» en dit plus. Ce qu’un programme peut lire est du JSON sur la sortie standard\u202f; tout le reste
va sur la sortie d’erreur. Codes de sortie\u202f: 0 fait, 1 échec, 2 la ligne de commande ou un fichier qu’elle nomme n’est pas
ce qu’il faut, 3 une vérification a trouvé quelque chose ou un choix est à faire d’abord.
`,
  serve: () => `usage\u202f: stovebench serve [--host ADRESSE] [--port NOMBRE] [--data RÉPERTOIRE]

  lance le service et écrit l’adresse à ouvrir\u202f; Ctrl-C l’arrête, ce qui est enregistré est en sûreté

  --host ADRESSE    de cette machine elle-même seulement (STOVEBENCH_HOST, 127.0.0.1)
  --port NOMBRE     port TCP (STOVEBENCH_PORT, 4280)
  --data RÉPERTOIRE où tout est gardé (STOVEBENCH_DATA)
  --help            ce texte
`,
  ports: () => `usage\u202f: stovebench ports

  écrit {"ports": [{"path", "stablePath", "manufacturer", ...}]}

  --help            ce texte
`,
  phones: (p) =>
    `un téléphone du même réseau ouvre ${p.addresses}\u202f; il demande un code, montré dans Options ou par «\u202fstovebench pair\u202f»`,
  nobodyComes: () =>
    'le service ne répond que sur cette machine\u202f: aucun téléphone ne peut entrer\u202f; lancez-le avec STOVEBENCH_HOST=0.0.0.0',
  pair: () => `usage\u202f: stovebench pair [--list | --revoke ID] [--service URL | --data RÉPERTOIRE]

  fait un code pour le service en marche, valable cinq minutes et pour un téléphone\u202f: ouvrez une des adresses sur le téléphone
  et saisissez-y le code. Ce qui est écrit est du JSON

  --list            plutôt les appareils qui peuvent entrer
  --revoke ID       renvoie plutôt un appareil${common}
`,
  'check-board':
    () => `usage\u202f: stovebench check-board PORT [--baud N] [--for SECONDES] [--service URL | --data RÉPERTOIRE]

  écoute la carte, lui redemande un ancien relevé et qui elle est, et dit ce qui ne va pas et quoi faire, à mesure\u202f; puis le
  verdict, et le rapport en JSON. Refusé tant qu’un essai enregistre depuis la carte. Dans un terminal, les sondes s’essaient\u202f:
  tapez «\u202fhand 1\u202f» et prenez la sonde 1 dans la main, «\u202ffault 1\u202f» et débranchez-la, «\u202fice 1\u202f» ou
  «\u202fboil 1\u202f» et plongez-la\u202f; «\u202fstop\u202f» termine l’essai de la sonde, une ligne vide le contrôle

  --baud N          vitesse du port (115200)
  --for SECONDES    combien de temps\u202f; à défaut 30, et dans un terminal jusqu’à une ligne vide
                    code de sortie 0 quand la carte est prête, 3 quand quelque chose a été trouvé${common}
`,
  checkGood: (p) => `bien\u202f: ${p.sentence}`,
  checkDoubtful: (p) => `à voir\u202f: ${p.sentence}`,
  checkBad: (p) => `faux\u202f: ${p.sentence}`,
  checkHelp: (p) => `  que faire\u202f: ${p.help}`,
  checkWatching: () => 'le contrôle a été trop court pour un verdict\u202f: laissez-le une demi-minute (--for 30)',
  checkReady: () => 'verdict\u202f: cette carte est prête',
  checkUsable: () => 'verdict\u202f: cette carte peut servir, avec ce qui est dit plus haut',
  checkNotUsable: () => 'verdict\u202f: cette carte ne peut pas servir ainsi\u202f; corrigez d’abord ce qui est faux',
  checkTests: () =>
    'tapez hand, fault, ice ou boil et le numéro d’une sonde pour l’essayer\u202f; une ligne vide termine le contrôle',
  checkWhich: (p) =>
    `«\u202f${p.typed}\u202f» n’est pas un essai\u202f: par exemple «\u202fhand 1\u202f» ou «\u202fstop\u202f»`,
  connecting: () => 'recherche du chargeur d’amorçage',
  writing: (p) => `écriture, ${p.percent}\u00a0%`,
  checking: (p) => `relecture, ${p.percent}\u00a0%`,
  starting: () => 'attente du premier mot de la carte',
  flash: () => `usage\u202f: stovebench flash PORT [--firmware NOM] [--service URL | --data RÉPERTOIRE]

  met le micrologiciel sur une carte à ATmega328P par son chargeur d’amorçage, le relit et attend que la carte soit en marche\u202f;
  écrit la carte en JSON. Refusé pendant un essai

  --firmware NOM    bench-board-14 (trois thermocouples sur amplificateurs de 14 bits\u202f; à défaut), bench-board-19 (quatre sur
                    amplificateurs de 19 bits), bench-board-mixed (huit voies)\u202f; le guide montre le câblage de chacun${common}
`,
  watch: () => `usage\u202f: stovebench watch [--service URL | --data RÉPERTOIRE] [--count N]
        stovebench watch PORT [--baud N] [--count N]

  écrit un objet JSON par ligne\u202f: avec un PORT, les relevés de sa carte\u202f; sans, ce que dit un service en marche (relevés,
  repères, cartes). Un PORT ouvert par un service est occupé. Ctrl-C y met fin

  --baud N          vitesse du port (115200)
  --count N         s’arrête après tant de lignes
  --data RÉPERTOIRE les données dont suivre le service
  --service URL     le service à suivre
  --help            ce texte
`,
  analyse: (p) => `usage\u202f: stovebench analyse DOSSIER.json [--method NOM]

  calcule tous les résultats d’un dossier d’essai et les écrit\u202f; «\u202f-\u202f» est l’entrée standard

  --method NOM      ${p.methods}\u202f; à défaut celle du dossier
  --schema          écrit plutôt le schéma JSON d’un dossier d’essai
  --help            ce texte
`,
  compare: (
    p,
  ) => `usage\u202f: stovebench compare A1.json A2.json ... --against B1.json B2.json ... [--against C1.json ...]

  compare les essais d’une révision (A) à ceux d’une autre (B)\u202f; ce sont tous des dossiers d’essai\u202f;
  de plusieurs révisions, données dans l’ordre où elles ont été faites, la dernière avec celle d’avant, comme étapes d’une suite

  --primary RÉSULTAT  résultat qui porte le verdict (${p.results}, ...)\u202f; choisi avant les essais
  --blocks SORTE      ${p.blocks}\u202f: comparer par jour, ou par lot de bois
  --worth FRACTION    différence relative pour laquelle prévoir d’autres jours (0.1)
  --days NOMBRE       jours de chaque révision, dits d’avance, ou untilClear\u202f; sans cette option, ce que disent les dossiers
  --idea TEXTE        ce qui serait changé ensuite\u202f: ajoute «\u202fnextTest\u202f», combien de jours il y faut et quoi essayer quand
  --part TEXTE        avec --idea\u202f: une chose qui changerait, une fois pour chacune
  --lot NOM:ESSAIS    avec --idea\u202f: un lot de bois et pour combien d’essais il suffit, une fois pour chacun
  --method NOM        ${p.methods}
  --as-measured       ne pas ramener charges, températures de départ et air à des conditions communes
  --language NOM      ${p.languages}
  --help              ce texte
`,
  predict: (p) => `usage\u202f: stovebench predict R1.json R2.json ... --load CHARGE.json

  prédit le temps jusqu’à la cible et le bois sec pour une charge, d’après des essais (leurs dossiers) d’une même révision

  --load CHARGE.json  la charge demandée\u202f; {"waterKg": 30} suffit, le reste est pris comme dans les essais
  --schema            écrit plutôt le schéma de CHARGE.json
  --language NOM      ${p.languages}
  --help              ce texte
`,
  report: (p) => `usage\u202f: stovebench report ESSAI [--format pdf|html|svg] [--output FICHIER]
        stovebench report DOSSIER.json ...

  ESSAI est un identifiant, son début, un titre, ou «\u202flatest\u202f» (le dernier)\u202f; un dossier d’essai
  se passe de répertoire de données et peut venir de l’entrée standard, «\u202f-\u202f»

  --format NOM      ${p.formats} (pdf)
  --language NOM    ${p.languages}
  --paper NOM       ${p.papers} (a4)
  --output FICHIER  où l’écrire\u202f; «\u202f-\u202f» est la sortie standard
  --force           écraser un fichier qui existe
${common}
`,
  export: (p) => `usage\u202f: stovebench export ESSAI ... [--format NOM] [--output FICHIER]
        stovebench export --all
        stovebench export --list

  ESSAI est un identifiant, son début, un titre, ou «\u202flatest\u202f» (le dernier). Plusieurs essais vont dans un paquet\u202f;
  celui qui ne peut pas être exporté est laissé de côté, et figure avec sa raison sous "leftOut" dans la réponse (code de sortie 3) et
  dans datapackage.json

  --format NOM      ${p.formats} (package)
  --output FICHIER  où l’écrire\u202f; «\u202f-\u202f» est la sortie standard
  --all             tous les essais, en un paquet
  --list            écrit {"burns": [{"id", "title", "status", ...}]} et ne fait aucun fichier
  --force           écraser un fichier qui existe
${common}
`,
  import: () => `usage\u202f: stovebench import FICHIER [--keep mine|theirs] [--preview]
       stovebench import RÉPERTOIRE [--keep mine|theirs]

  FICHIER est un paquet ou un dossier d’essai de Stovebench, un tableau d’un enregistreur quelconque (CSV), ou des notes\u202f;
  «\u202f-\u202f» est l’entrée standard. Tout est importé, ou rien. Ce qui est déjà ici sous la même identité n’est pas importé deux fois\u202f; là où
  les deux diffèrent, rien n’est importé (code de sortie 3) tant que vous n’avez pas dit ce qui reste. Un RÉPERTOIRE fait par
  «\u202fstovebench publish\u202f» est importé essai par essai\u202f: un banc refait les a tous de nouveau

  --preview         écrit ce que le fichier contient et comment il serait lu\u202f; n’importe rien
  --keep CÔTÉ       mine (le mien) ou theirs (le leur), pour tout ce qui diffère
  --choices FICHIER JSON\u202f: [{"kind", "id", "take": "mine"|"theirs"}, ...], un par un, comme --preview les donne
  --as SORTE        columns (tableau) ou notes, quand le fichier peut être l’un ou l’autre
  --reading FICHIER JSON\u202f: comment lire un tableau ou des notes, comme --preview l’écrit («\u202fformat\u202f»)
  --into ESSAI      ajouter un tableau ou des notes à cet essai\u202f; un nouveau à défaut
  --at SECONDES     avec --into\u202f: où le fichier commence sur l’horloge de cet essai
  --title TEXTE     du nouvel essai
${common}
`,
  publish: () => `usage\u202f: stovebench publish RÉPERTOIRE [--name TEXTE]

  écrit les essais finis dans RÉPERTOIRE en fichiers Parquet partitionnés (burns, results, readings, marks, weighings), que
  plusieurs bancs peuvent partager. Seul ce qui a changé est écrit\u202f; aucun fichier n’y est jamais à moitié, et une
  publication interrompue est rattrapée par la suivante. Les lignes d’un essai supprimé s’en vont. Imprime {"folder", "bench",
  "files", "burns", "unfinished", "elsewhere"}\u202f: fichiers écrits ou supprimés, essais qui s’y trouvent, essais laissés de
  côté parce qu’ils ne sont pas finis, et parce qu’un autre banc les y a publiés. Noms, lieux et notes sont publiés tels qu’ils
  ont été saisis

  --name TEXTE      comment ce banc s’appelle désormais
${common.slice(1)}
`,
  backup: () => `usage\u202f: stovebench backup [RÉPERTOIRE]

  copie la base et les photos dans un nouveau RÉPERTOIRE (à défaut dans «\u202fbackups\u202f», parmi les données) et met chaque essai
  de la copie à l’épreuve\u202f; se fait aussi pendant un essai

${common.slice(1)}
`,
  restore: () => `usage\u202f: stovebench restore SAUVEGARDE [--data RÉPERTOIRE] [--replace]

  remet une sauvegarde en place\u202f: chaque fichier est vérifié par sa somme de contrôle, la base par elle-même, chaque essai
  par celles de son dossier et de ses résultats. Si quoi que ce soit ne va pas, on ne touche à rien

  --data RÉPERTOIRE où\u202f; à défaut STOVEBENCH_DATA, sinon le répertoire de cet utilisateur
  --replace         mettre de côté, sous un autre nom, les données qui y sont
  --help            ce texte
`,
  verify: () => `usage\u202f: stovebench verify [--data RÉPERTOIRE]
        stovebench verify SAUVEGARDE
        stovebench verify PAQUET.zip
        stovebench verify --salvage NOUVEAU [--data RÉPERTOIRE]

  vérifie la base, les mesures de chaque essai par leur somme de contrôle, et que les résultats ressortent comme avant\u202f;
  écrit {"ok", "database", "burns"}. Des résultats d’une autre version de la méthode ("otherVersion") ne sont pas un dégât.
  Code de sortie 3 si quelque chose ne va pas. Quand un service est en marche, c’est une copie fraîche qui est vérifiée.
  D’un paquet\u202f: chacun de ses fichiers par ses sommes de contrôle, et que ses essais se lisent\u202f; écrit {"ok", "burns" ou "faults"}

  --data RÉPERTOIRE les données à vérifier
  --salvage NOUVEAU écrit ce qui se lit de données abîmées dans ce nouveau répertoire, le vérifie, et ajoute "salvaged"\u202f: les lignes
                    lues par table, celles dont un bit changé a été rétabli ("mended"), et ce qui ne se lit pas ou n’est pas ce qui
                    avait été écrit ("leftOut"). Les données abîmées restent comme elles sont
  --help            ce texte
`,
  survey: (
    p,
  ) => `usage\u202f: stovebench survey RÉPERTOIRE [--result RÉSULTAT] [--start cold|hot] [--simulated] [--output FICHIER]

  interroge les essais que des bancs ont publiés dans RÉPERTOIRE\u202f: de combien les bancs s’écartent, s’il a fallu moins à chaque
  révision sur chaque banc, quel banc dérive, un lot de combustible dans plusieurs poêles, la répétabilité et la reproductibilité
  selon l’ISO 5725-2, et combien de fois les intervalles déclarés ont tenu. Écrit des tableaux sur la sortie d’erreur, une page avec
  des graphiques, et toutes les réponses en JSON. Il lui faut le paquet @duckdb/node-api, et il dit comment l’ajouter

  --result RÉSULTAT ce qui est demandé (dryWoodPerBatch), par exemple specificFuelConsumption ou timeToTarget
  --start ÉTAT      cold ou hot\u202f: le poêle à l’allumage, froid ou chaud\u202f; les deux ne sont jamais mêlés (cold)
  --simulated       les essais simulés au lieu des mesurés
  --language NOM    ${p.languages}
  --output FICHIER  où écrire la page (survey.html)\u202f; «\u202f-\u202f» est la sortie standard, sans le JSON
  --force           écrire par-dessus un fichier qui est là
  --help            ce texte
`,
  importing: (p) => `essais importés\u202f: ${p.done}`,
  publishing: (p) => `fichier ${p.done} sur ${p.of}`,
  proving: (p) => `essai ${p.done} sur ${p.of}`,
  working: (p) => `en cours depuis ${p.seconds}\u00a0s`,
  workingOn: (p) => `${p.done} sur ${p.of}, depuis ${p.seconds}\u00a0s`,
  writtenSoFar: (p) => `écrit jusqu’ici\u202f: ${p.megabytes} Mo`,
  moreIssues: (p) => `et ${p.count} de plus`,
  leftOut: (p) => `laissé de côté\u202f: ${p.title}. ${p.reason}`,
  written: (p) => `écrit\u202f: ${p.file}`,
  asking: (p) => `on demande au service à ${p.address}`,
};
