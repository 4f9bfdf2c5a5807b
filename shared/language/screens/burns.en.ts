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
    all: 'all',
    noneMatch: 'No burn is of this stove, revision and wood together.',
    clear: 'Show all burns',
    compare: 'Curves together',
    asRevisions: 'Compare their revisions',
    compareHint: 'Tick two burns or more.',
    choose: (p: { title: string }) => `Choose ${p.title}`,
    curveOf: (p: { title: string; high: string }) => `Water curve of ${p.title}, up to ${p.high}`,
    scale: (p: { span: string }) =>
      `Small curves: 0 to 100 °C, ${p.span} from edge to edge, from the start of recording.`,
  },
};
