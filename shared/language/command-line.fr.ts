/** Aide de la ligne de commande, en français. */
import type { commandLineEn } from './command-line.en.ts';

const common = `
  --data DOSSIER    les données à utiliser ; à défaut STOVEBENCH_DATA, sinon le dossier de cet utilisateur
  --service URL     demander à ce service en marche ; trouvé tout seul quand il tient les données
  --help            ce texte`;

export const commandLineFr: typeof commandLineEn = {
  overview: () => `usage : stovebench COMMANDE ...

  serve     lancer le service ; l’adresse à ouvrir est la dernière ligne écrite
  ports     lister les ports série
  pair      un code pour laisser entrer un téléphone ; les appareils entrés jusqu’ici
  watch     écrire les mesures comme elles viennent
  flash     mettre le micrologiciel sur une carte
  analyse   les résultats d’un relevé de flambée
  compare   les flambées d’une révision contre celles d’une autre
  predict   ce que des flambées disent d’une autre charge
  report    le rapport d’une flambée, à imprimer ou à envoyer
  export    des flambées en fichiers : paquet, relevé, tableaux, classeur, Parquet
  import    reprendre des flambées, des tableaux d’autres enregistreurs ou des notes
  backup    tout copier, même pendant une flambée
  restore   remettre une sauvegarde en place, une fois qu’elle a fait ses preuves
  verify    vérifier la base, les mesures de chaque flambée et ses résultats

« stovebench COMMANDE --help » en dit plus. Ce qu’un programme peut lire est du JSON sur la sortie standard ; tout le reste
va sur la sortie d’erreur. Codes de sortie : 0 fait, 1 échec, 2 la ligne de commande ou un fichier qu’elle nomme n’est pas
ce qu’il faut, 3 une vérification a trouvé quelque chose ou un choix est à faire d’abord.
`,
  serve: () => `usage : stovebench serve [--host ADRESSE] [--port NOMBRE] [--data DOSSIER]

  lance le service et écrit l’adresse à ouvrir ; Ctrl-C l’arrête, ce qui est enregistré est en sûreté

  --host ADRESSE    de cette machine elle-même seulement (STOVEBENCH_HOST, 127.0.0.1)
  --port NOMBRE     port TCP (STOVEBENCH_PORT, 4280)
  --data DOSSIER    où tout est gardé (STOVEBENCH_DATA)
  --help            ce texte
`,
  ports: () => `usage : stovebench ports

  écrit {"ports": [{"path", "stablePath", "manufacturer", ...}]}

  --help            ce texte
`,
  phones: (p) =>
    `un téléphone du même réseau ouvre ${p.addresses} ; il demande un code, montré dans Réglages ou par « stovebench pair »`,
  nobodyComes: () =>
    'le service ne répond que sur cette machine : aucun téléphone ne peut entrer ; lancez-le avec STOVEBENCH_HOST=0.0.0.0',
  pair: () => `usage : stovebench pair [--list | --revoke ID] [--service URL | --data DOSSIER]

  fait un code pour le service en marche, valable cinq minutes et pour un téléphone : ouvrez une des adresses sur le téléphone
  et saisissez-y le code. Ce qui est écrit est du JSON

  --list            plutôt les appareils qui peuvent entrer
  --revoke ID       renvoie plutôt un appareil${common}
`,
  connecting: () => 'recherche du chargeur d’amorçage',
  writing: (p) => `écriture, ${p.percent} %`,
  checking: (p) => `relecture, ${p.percent} %`,
  starting: () => 'attente du premier mot de la carte',
  flash: () => `usage : stovebench flash PORT [--firmware NOM] [--service URL | --data DOSSIER]

  met le micrologiciel sur une carte à ATmega328P par son chargeur d’amorçage, le relit et attend que la carte soit en marche ;
  écrit la carte en JSON. Refusé pendant une flambée

  --firmware NOM    bench-board-14 (trois thermocouples sur amplificateurs de 14 bits ; à défaut), bench-board-19 (quatre sur
                    amplificateurs de 19 bits), bench-board-mixed (huit voies) ; le guide montre le câblage de chacun${common}
`,
  watch: () => `usage : stovebench watch [--service URL | --data DOSSIER] [--count N]
        stovebench watch PORT [--baud N] [--count N]

  écrit un objet JSON par ligne : avec un PORT, les relevés de sa carte ; sans, ce que dit un service en marche (relevés,
  repères, cartes). Un PORT ouvert par un service est occupé. Ctrl-C y met fin

  --baud N          vitesse du port (115200)
  --count N         s’arrête après tant de lignes
  --data DOSSIER    les données dont suivre le service
  --service URL     le service à suivre
  --help            ce texte
`,
  analyse: (p) => `usage : stovebench analyse RELEVÉ.json [--method NOM]

  calcule tous les résultats d’un relevé de flambée et les écrit

  --method NOM      ${p.methods} ; à défaut celle du relevé
  --schema          écrit plutôt le schéma JSON d’un relevé
  --help            ce texte
`,
  compare: (p) => `usage : stovebench compare A1.json A2.json ... --against B1.json B2.json ... [--against C1.json ...]

  compare les flambées d’une révision (A) à celles d’une autre (B) ; ce sont tous des relevés
  de plusieurs révisions, données dans l’ordre où elles ont été faites, la dernière avec celle d’avant, comme étapes d’une suite

  --primary RÉSULTAT  résultat qui porte le verdict (${p.results}, ...) ; choisi avant les flambées
  --blocks SORTE      ${p.blocks} : comparer par jour, ou par lot de bois
  --worth FRACTION    différence relative pour laquelle prévoir d’autres jours (0.1)
  --days NOMBRE       jours de chaque révision, dits d’avance, ou untilClear ; sans cette option, ce que disent les relevés
  --idea TEXTE        ce qui serait changé ensuite : ajoute « nextTest », combien de jours il y faut et que brûler quand
  --part TEXTE        avec --idea : une chose qui changerait, une fois pour chacune
  --lot NOM:FLAMBÉES  avec --idea : un lot de bois et pour combien de flambées il suffit, une fois pour chacun
  --method NOM        ${p.methods}
  --as-measured       ne pas ramener charges, températures de départ et air à des conditions communes
  --language NOM      ${p.languages}
  --help              ce texte
`,
  predict: (p) => `usage : stovebench predict R1.json R2.json ... --load CHARGE.json

  prédit le temps jusqu’à la cible et le bois sec pour une charge, d’après des flambées (relevés) d’une même révision

  --load CHARGE.json  la charge demandée ; {"waterKg": 30} suffit, le reste est pris comme dans les flambées
  --schema            écrit plutôt le schéma de CHARGE.json
  --language NOM      ${p.languages}
  --help              ce texte
`,
  report: (p) => `usage : stovebench report FLAMBÉE [--format pdf|html|svg] [--output FICHIER]
        stovebench report RELEVÉ.json ...

  FLAMBÉE est un identifiant, son début, un titre, ou « latest » (la dernière) ; un relevé se passe de dossier de données

  --format NOM      ${p.formats} (pdf)
  --language NOM    ${p.languages}
  --paper NOM       ${p.papers} (a4)
  --output FICHIER  où l’écrire ; « - » est la sortie standard
  --force           écraser un fichier qui existe
${common}
`,
  export: (p) => `usage : stovebench export FLAMBÉE ... [--format NOM] [--output FICHIER]
        stovebench export --all
        stovebench export --list

  FLAMBÉE est un identifiant, son début, un titre, ou « latest » (la dernière). Plusieurs flambées vont dans un paquet

  --format NOM      ${p.formats} (package)
  --output FICHIER  où l’écrire ; « - » est la sortie standard
  --all             toutes les flambées, en un paquet
  --list            écrit {"burns": [{"id", "title", "status", ...}]} et ne fait aucun fichier
  --force           écraser un fichier qui existe
${common}
`,
  import: () => `usage : stovebench import FICHIER [--keep mine|theirs] [--preview]

  FICHIER est un paquet ou un relevé de Stovebench, un tableau d’un enregistreur quelconque (CSV), ou des notes ; « - » est
  l’entrée standard. Tout est repris, ou rien. Ce qui est déjà ici sous la même identité n’est pas repris deux fois ; là où
  les deux diffèrent, rien n’est repris (code de sortie 3) tant que vous n’avez pas dit ce qui reste

  --preview         écrit ce que le fichier contient et comment il serait lu ; ne reprend rien
  --keep CÔTÉ       mine (le mien) ou theirs (le leur), pour tout ce qui diffère
  --choices FICHIER JSON : [{"kind", "id", "take": "mine"|"theirs"}, ...], un par un, comme --preview les donne
  --as SORTE        columns (tableau) ou notes, quand le fichier peut être l’un ou l’autre
  --reading FICHIER JSON : comment lire un tableau ou des notes, comme --preview l’écrit (« format »)
  --into FLAMBÉE    ajouter un tableau ou des notes à cette flambée ; une nouvelle à défaut
  --at SECONDES     avec --into : où le fichier commence sur l’horloge de cette flambée
  --title TEXTE     de la nouvelle flambée
${common}
`,
  backup: () => `usage : stovebench backup [DOSSIER]

  copie la base et les photos dans un nouveau DOSSIER (à défaut dans « backups », parmi les données) et met chaque flambée
  de la copie à l’épreuve ; se fait aussi pendant une flambée

${common.slice(1)}
`,
  restore: () => `usage : stovebench restore SAUVEGARDE [--data DOSSIER] [--replace]

  remet une sauvegarde en place : chaque fichier est vérifié par sa somme de contrôle, la base par elle-même, chaque flambée
  par celles de son relevé et de ses résultats. Si quoi que ce soit ne va pas, on ne touche à rien

  --data DOSSIER    où ; à défaut STOVEBENCH_DATA, sinon le dossier de cet utilisateur
  --replace         mettre de côté, sous un autre nom, les données qui y sont
  --help            ce texte
`,
  verify: () => `usage : stovebench verify [--data DOSSIER]
        stovebench verify SAUVEGARDE

  vérifie la base, les mesures de chaque flambée par leur somme de contrôle, et que les résultats ressortent comme avant ;
  écrit {"ok", "database", "burns"}. Code de sortie 3 si quelque chose ne va pas. Quand un service est en marche, c’est une
  copie fraîche qui est vérifiée

  --data DOSSIER    les données à vérifier
  --help            ce texte
`,
  proving: (p) => `flambée ${p.done} sur ${p.of}`,
  written: (p) => `écrit : ${p.file}`,
  asking: (p) => `on demande au service à ${p.address}`,
};
