/** Under which address each kind of inventory is found; apart from the schemas, which the page does not load. */
export const inventoryPaths = {
  stoves: 'stoves',
  revisions: 'revisions',
  vessels: 'vessels',
  fuelLots: 'fuel-lots',
  places: 'places',
  scales: 'scales',
} as const;
