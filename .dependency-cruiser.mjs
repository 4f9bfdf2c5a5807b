// Which folder may import which. Everything not named in a list is refused, packages and Node's own modules included.
// Run through `npm run check`, which also makes sure that dependency-cruiser saw every source file.

/** @typedef {import('dependency-cruiser').IForbiddenRuleType} Rule */

/** @param {string[]} folders */
const under = (folders) => `^(${folders.join('|')})/`;

/** @param {string[]} packages */
const npm = (packages) => `node_modules/(${packages.join('|')})/`;

/**
 * The folder imports from itself and from what is listed, nothing else.
 * @param {string} folder
 * @param {string[]} folders
 * @param {string[]} packages
 * @returns {Rule}
 */
const importsOnly = (folder, folders, packages = []) => ({
  name: `${folder} imports only ${[...folders, ...packages].join(', ') || 'itself'}`,
  severity: 'error',
  from: { path: under([folder]) },
  to: { pathNot: [under([folder, ...folders]), ...(packages.length > 0 ? [npm(packages)] : [])] },
});

/**
 * One folder alone knows the package (tests, measurements and faults aside, which look at both sides of it).
 * @param {string} name
 * @param {string} folder
 * @returns {Rule}
 */
const onlyIn = (name, folder) => ({
  name: `only ${folder} imports ${name}`,
  severity: 'error',
  from: { pathNot: under([folder, 'tests', 'scripts/benchmark', 'scripts/faults']) },
  to: { path: npm([name, `@types/${name}`]) },
});

/**
 * @param {string} folder
 * @param {string} other
 * @returns {Rule}
 */
const apart = (folder, other) => ({
  name: `${folder} knows nothing of ${other}`,
  severity: 'error',
  from: { path: under([folder]) },
  to: { path: under([other]) },
});

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    importsOnly('firmware-protocol', []),
    importsOnly('shared', [], ['zod']),
    importsOnly('shared/physics', []),
    importsOnly('shared/statistics', []),
    importsOnly('shared/plain-lines', ['shared/contract', 'shared/physics', 'shared/statistics']),
    importsOnly('shared/analysis', ['shared/physics', 'shared/statistics', 'shared/contract']),
    importsOnly('shared/comparison', [
      'shared/analysis',
      'shared/statistics',
      'shared/physics',
      'shared/contract',
      'shared/language',
    ]),
    {
      name: 'server imports only shared and firmware-protocol',
      severity: 'error',
      from: { path: under(['server']) },
      to: { path: under(['web', 'tests', 'scripts']) },
    },
    {
      name: 'web imports only shared',
      severity: 'error',
      from: { path: under(['web']), pathNot: '^web/vite\\.config\\.ts$' },
      to: { path: under(['server', 'firmware-protocol', 'tests', 'scripts']) },
    },
    {
      name: 'web runs in a browser',
      severity: 'error',
      from: { path: under(['web']), pathNot: '^web/vite\\.config\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'nothing imports web',
      severity: 'error',
      from: { pathNot: under(['web', 'tests']) },
      to: { path: under(['web']) },
    },
    apart('server/bridge', 'server/store'),
    apart('server/store', 'server/bridge'),
    // The simulator tests the analysis: sharing its physics would make every mistake in it agree with itself.
    apart('server/simulator', 'shared/analysis'),
    onlyIn('better-sqlite3', 'server/store'),
    onlyIn('serialport', 'server/bridge'),
    onlyIn('@serialport', 'server/bridge'),
    onlyIn('chart.js', 'web/charts'),
    {
      name: 'no cycles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'every import is found',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'the service runs without development packages',
      severity: 'error',
      from: { path: under(['server', 'shared', 'firmware-protocol']) },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'], pathNot: npm(['@types', '@duckdb']) },
    },
    {
      name: 'only a survey needs the optional DuckDB',
      severity: 'error',
      from: { path: under(['server', 'shared', 'firmware-protocol']), pathNot: '^server/survey/duckdb\\.ts$' },
      to: { path: npm(['@duckdb']), dependencyTypesNot: ['type-only'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
    },
  },
};
