/** What a probe measures in a burn. */
export const channelRoles = [
  'water',
  'contentCore',
  'flue',
  'riser',
  'airGap',
  'body',
  'ambient',
  'coldJunction',
  'fuelScale',
  'stoveScale',
  'stationPressure',
  'oxygen',
  'carbonDioxide',
  'carbonMonoxide',
  'other',
] as const;
