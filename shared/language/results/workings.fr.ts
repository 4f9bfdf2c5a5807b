/** En français : voir workings.en.ts. Tout texte d'une déclaration qui contient un mot anglais a une ligne ici. */
export const workingTextsFr: Readonly<Record<string, string>> = {
  /* ---- sources ---- */
  'bench-1 definition': 'définition de bench-1',
  'bench-1 definition, rough': 'définition de bench-1, approximative',
  'bench-1 definition; enthalpy of water by IAPWS-IF97 region 1 (IAPWS R7-97)':
    'définition de bench-1\u202f; enthalpie de l’eau d’après IAPWS-IF97 région 1 (IAPWS R7-97)',
  'bench-1 definition; heat of vaporisation by IAPWS-IF97 (IAPWS R7-97)':
    'définition de bench-1\u202f; chaleur de vaporisation d’après IAPWS-IF97 (IAPWS R7-97)',
  'bench-1 definition; as-received heating value by ISO 18125 (from memory)':
    'définition de bench-1\u202f; pouvoir calorifique sur brut d’après ISO 18125, texte non consulté\u202f: formule et nombres tels qu’imprimés ici',
  'IAPWS-IF97 region 4 (IAPWS R7-97); ISO 2533 where only the altitude is known':
    'IAPWS-IF97 région 4 (IAPWS R7-97)\u202f; ISO 2533 où seule l’altitude est connue',
  'mean of the water probes; IEC 60751, IEC 60584-1 where only their class is known':
    'moyenne des sondes d’eau\u202f; IEC 60751, IEC 60584-1 où seule leur classe est connue',
  "Newton's law of cooling, lumped heat capacity (H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, 1.9, from memory)":
    'loi de refroidissement de Newton, capacité thermique globale (Carslaw et Jaeger, texte non consulté\u202f: formule telle qu’imprimée ici)',
  'Siegert, a1 = 0.65 for dry wood (published table of solid-fuel engineers)':
    'Siegert, a1 = 0,65 pour le bois sec (table publiée par des ingénieurs des combustibles solides)',
  'as stated with the lot, else a typical value': 'indiqué avec le lot, sinon une valeur courante',
  weighed: 'pesé',
  measured: 'mesuré',
  'After ISO 19867-1:2018; from memory':
    'd’après ISO 19867-1:2018, texte non consulté\u202f: formule et constantes telles qu’imprimées ici',
  'Water boiling test, international standard text of 1985, revised as 3.0; from memory':
    'essai d’ébullition de l’eau, texte de 1985, révisé en 3.0, non consulté\u202f: formule et constantes telles qu’imprimées ici',
  'Water boiling test, protocol 4.x; from memory':
    'essai d’ébullition de l’eau, protocole 4.x, texte non consulté\u202f: formule et constantes telles qu’imprimées ici',
  /* ---- formules ---- */
  'as stated, else the mean of the air probe while the fire burnt':
    'indiquée, sinon la moyenne de la sonde d’air pendant le feu',
  'mean offset of the water probes before the plateau is looked at':
    'décalage moyen des sondes d’eau avant la prise en compte du palier',
  'mean gain error of the water probes before the plateau is looked at':
    'erreur de gain moyenne des sondes d’eau avant la prise en compte du palier',
  'T_b − 0.5 K for a boil, else as asked': 'T_b − 0,5\u00a0K pour une ébullition, sinon telle que demandée',
  't_boil − t_lit; boil: T ≥ T_b − 0.5 K, then T > T_b − 1 K for 60 s':
    't_boil − t_lit\u202f; ébullition\u202f: T ≥ T_b − 0,5\u00a0K, puis T > T_b − 1\u00a0K pendant 60 s',
  'slope of T from 10 to 90 % of the rise (least squares)':
    'pente de T de 10 à 90\u00a0% de la montée (moindres carrés)',
  'slope of −ln(T − T_air) while the pot cooled off the fire (least squares)':
    'pente de −ln(T − T_air) pendant que la marmite refroidissait hors du feu (moindres carrés)',
  'k·C, steam of an open pot included': 'k·C, vapeur d’une marmite ouverte comprise',
  'water weighed before the burn': 'eau pesée avant l’essai',
  'water weighed after the burn + what it lost while it cooled':
    'eau pesée après l’essai + ce qu’elle a perdu en refroidissant',
  'burnt, as weighed, of all lots': 'brûlé, tel que pesé, de tous les lots',
  'q_i of the main lot: of the wood, the lot of which most was carried to the fire; other lots count by their heat':
    'q_i du lot principal\u202f: du bois, le lot dont le plus a été apporté au feu\u202f; les autres lots comptent par leur chaleur',
  'char raked out less old char that lay in the firebox':
    'charbon retiré moins l’ancien charbon qui se trouvait dans le foyer',
  'net heating value of the char that the main lot leaves':
    'pouvoir calorifique inférieur du charbon que laisse le lot principal',
  'm_body·c·(mean rise of the body probes)': 'm_body·c·(montée moyenne des sondes du corps)',
  'mean of (T_flue − T_air)·a1 / CO2': 'moyenne de (T_flue − T_air)·a1 / CO2',
  '(E_fuel − E_char) / q_net,d, target reached and hold kept':
    '(E_fuel − E_char) / q_net,d, cible atteinte et maintien tenu',
  '1 when the target was reached and the hold kept': '1 quand la cible a été atteinte et le maintien tenu',
  'fed to the target − what lay in the firebox then':
    'apporté jusqu’à la cible − ce qui se trouvait alors dans le foyer',
  'fed in the hold + what lay in the firebox at its start − what lay there at its end':
    'apporté pendant le maintien + ce qui se trouvait dans le foyer à son début − ce qui s’y trouvait à sa fin',
  'longest time between attentions while the fire did its job':
    'temps le plus long entre deux interventions pendant que le feu faisait son travail',
  'median time between attentions while the fire did its job':
    'temps médian entre deux interventions pendant que le feu faisait son travail',
  'median time from a feed until the heating rate is back at 95 %':
    'temps médian d’une recharge jusqu’à ce que la vitesse de chauffe revienne à 95\u00a0%',
  'time counted at or above the floor; a drop counts after 60 s':
    'temps compté au seuil ou au-dessus\u202f; une baisse compte après 60 s',
  'time below the floor in drops of 60 s or more': 'temps sous le seuil en baisses de 60 s ou plus',
  'δ + γ·T_floor + T_b, each less its best estimate, and the layers of the water':
    'δ + γ·T_floor + T_b, chacun moins sa meilleure estimation, et les couches de l’eau',
  'lowest water temperature in the hold': 'température de l’eau la plus basse du maintien',
  'firepower to target / firepower in hold': 'puissance du feu jusqu’à la cible / puissance du feu pendant le maintien',
  '(4.186·W0·(T1 − T0) + 2260·w) / (fd·LHV); the char is in fd, not credited again':
    '(4,186·W0·(T1 − T0) + 2260·w) / (fd·LHV)\u202f; le charbon est dans fd, pas compté deux fois',
  '(E_fuel − E_char); E_fuel = fcm·LHV as received': '(E_fuel − E_char)\u202f; E_fuel = fcm·PCI sur brut',
  'E_fuel; E_fuel = fcm·LHV as received': 'E_fuel\u202f; E_fuel = fcm·PCI sur brut',
};
