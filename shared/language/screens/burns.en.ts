/** In English: the list of burns. */

export const burnsEn = {
  list: {
    title: 'Burns',
    none: 'No burn yet.',
    status: {
      planned: 'planned',
      running: 'running',
      ended: 'to be weighed',
      complete: 'complete',
      setAside: 'not counted',
    },
    origin: { measured: 'measured', simulated: 'simulated', enteredByHand: 'by hand', imported: 'imported' },
    noRevision: 'no revision',
    filterStove: 'Stove',
    filterRevision: 'Revision',
    filterFuel: 'Wood',
    filterTarget: 'Target',
    filterStatus: 'Status',
    filters: 'Filter and sort',
    filtersOn: (p: { count: number }) => `Filter and sort (${p.count} in force)`,
    search: 'Search',
    order: 'Order',
    newest: 'newest first',
    oldest: 'oldest first',
    toBoil: 'boil',
    toTemperature: (p: { level: string }) => `to ${p.level}`,
    columns: { dryWoodPerBatch: 'Dry wood', timeToTarget: 'To target', thermalEfficiency: 'Efficiency' },
    meanOf: (p: { count: number }) => (p.count === 1 ? 'of 1 burn' : `mean of ${p.count}`),
    burnCount: (p: { count: number }) => (p.count === 1 ? '1 burn' : `${p.count} burns`),
    changedOnDisk: 'changed on the disk',
    toWeigh: { char: 'char', fuelPile: 'wood', water: 'water', brands: 'brands', ash: 'ash' },
    workingOut: (p: { count: number }) =>
      p.count === 1
        ? 'The results of one burn are being worked out.'
        : `Results of ${p.count} burns are being worked out.`,
    bars: 'Bars: 95 % interval, all of a column on one scale; the line across them is the mean of the revision.',
    all: 'all',
    noneMatch: 'No burn is all of this together.',
    clear: 'Show all burns',
    compare: 'Curves together',
    asRevisions: 'Compare their revisions',
    compareHint: 'Tick two burns or more to see their curves together.',
    choose: (p: { title: string }) => `Choose ${p.title}`,
    curveOf: (p: { title: string; high: string }) => `Water curve of ${p.title}, up to ${p.high}`,
    scale: (p: { span: string }) =>
      `Small curves: 0 to 100 °C, ${p.span} from edge to edge, from the start of recording.`,
  },
};
