/** Cautions in English, with the same words on the screen and on paper. */

export const cautionsEn = {
  lighting:
    'Burn outdoors or under a flue that is known to draw: carbon monoxide has no smell. Keep a metre clear all round, water or sand within reach, children away. No petrol, no painted or treated wood.',
  scrap:
    'Galvanised, plated or painted steel gives off poisonous fumes on its first firing. Never cut or heat a closed vessel.',
  hot: 'Twenty litres near the boil scald for life. Stable base, lid tilted away from you, probe leads out of the way; never lift a hot pot.',
  char: 'Raked-out char keeps making carbon monoxide: lidded metal tin, outdoors, weighed when cold.',
  unattended: 'Do not leave the fire.',
  food: 'Temperature in the bath is not temperature in the jar. Boiling water does not make low-acid food (pH above 4.6) safe at any length of time: follow the tested schedule of your food-safety authority.',
  defer: 'Local fire rules, building codes and licensed trades decide.',
};
