/** The path of each kind of inventory; separate from the schemas, which the page does not load. */
export const inventoryPaths = {
  stoves: 'stoves',
  revisions: 'revisions',
  vessels: 'vessels',
  fuelLots: 'fuel-lots',
  places: 'places',
  scales: 'scales',
} as const;
