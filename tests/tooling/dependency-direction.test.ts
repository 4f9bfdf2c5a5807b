import { expect, test } from 'vitest';
import { dependencyDirectionCheck } from '../../scripts/check/dependency-direction.ts';
import { temporaryProject } from '../support/temporary-folder.ts';

const CONFIG = '.dependency-cruiser.mjs';

/** One import that each rule must refuse: importing file, what it imports, and how the rule's name begins. */
const forbidden: readonly (readonly [from: string, to: string, rule: string])[] = [
  ['firmware-protocol/imports-shared.ts', '../shared/physics/sound.ts', 'firmware-protocol imports only itself'],
  ['firmware-protocol/imports-node.ts', 'node:fs', 'firmware-protocol imports only itself'],
  ['shared/contract/imports-node.ts', 'node:fs', 'shared imports only zod'],
  ['shared/contract/imports-server.ts', '../../server/sound.ts', 'shared imports only zod'],
  ['shared/contract/imports-package.ts', 'fastify', 'shared imports only zod'],
  ['shared/physics/imports-analysis.ts', '../analysis/sound.ts', 'shared/physics imports only itself'],
  ['shared/statistics/imports-physics.ts', '../physics/sound.ts', 'shared/statistics imports only itself'],
  ['shared/analysis/imports-comparison.ts', '../comparison/sound.ts', 'shared/analysis imports only'],
  ['shared/analysis/imports-language.ts', '../language/sound.ts', 'shared/analysis imports only'],
  ['shared/comparison/imports-package.ts', 'zod', 'shared/comparison imports only'],
  ['server/imports-scripts.ts', '../scripts/sound.ts', 'server imports only shared and firmware-protocol'],
  ['server/imports-web.ts', '../web/sound.tsx', 'nothing imports web'],
  ['scripts/imports-web.ts', '../web/sound.tsx', 'nothing imports web'],
  ['web/imports-server.ts', '../server/sound.ts', 'web imports only shared'],
  ['web/imports-firmware.ts', '../firmware-protocol/sound.ts', 'web imports only shared'],
  ['web/imports-node.ts', 'node:path', 'web runs in a browser'],
  ['server/bridge/imports-store.ts', '../store/sound.ts', 'server/bridge knows nothing of server/store'],
  ['server/store/imports-bridge.ts', '../bridge/sound.ts', 'server/store knows nothing of server/bridge'],
  ['server/burns/imports-database.ts', 'better-sqlite3', 'only server/store imports better-sqlite3'],
  ['server/routes/imports-port.ts', 'serialport', 'only server/bridge imports serialport'],
  ['server/routes/imports-parser.ts', '@serialport/parser-readline', 'only server/bridge imports @serialport'],
  ['web/views/imports-chart.ts', 'chart.js', 'only web/charts imports chart.js'],
  ['server/imports-development.ts', 'vite', 'the service runs without development packages'],
  ['server/imports-nothing-there.ts', './gone.ts', 'every import is found'],
  ['shared/physics/imports-itself-around.ts', './imports-itself-back.ts', 'no cycles'],
];

/** Imports that the same rules must accept. */
const sound: Readonly<Record<string, string>> = {
  'firmware-protocol/sound.ts': 'export const version = 1;\n',
  'shared/physics/sound.ts': 'export const massKg = 25;\n',
  'shared/statistics/sound.ts': 'export const level = 0.95;\n',
  'shared/contract/sound.ts': "import { z } from 'zod';\nexport const mass = z.number();\n",
  'shared/language/sound.ts': "export const burn = 'brûlage';\n",
  'shared/analysis/sound.ts':
    "import '../physics/sound.ts';\nimport '../statistics/sound.ts';\nimport '../contract/sound.ts';\n",
  'shared/comparison/sound.ts': "import '../analysis/sound.ts';\nimport '../language/sound.ts';\n",
  'server/sound.ts':
    "import 'node:fs';\nimport 'fastify';\nimport '../shared/analysis/sound.ts';\nimport '../firmware-protocol/sound.ts';\n",
  'server/bridge/sound.ts': "import 'serialport';\n",
  'server/store/sound.ts': "import 'better-sqlite3';\n",
  'web/sound.tsx': "import 'preact';\nimport '../shared/analysis/sound.ts';\n",
  'web/charts/sound.ts': "import 'chart.js';\n",
  'tests/sound.ts': "import '../web/sound.tsx';\nimport '../server/sound.ts';\nimport 'better-sqlite3';\n",
  'scripts/sound.ts': "import '../server/sound.ts';\nimport 'vite';\n",
};

test('imports along the arrows pass', async () => {
  expect(await dependencyDirectionCheck.run(temporaryProject([CONFIG, 'package.json'], sound))).toEqual({
    passed: true,
  });
});

test('every rule refuses the import it was made for', async () => {
  const planted = forbidden.map(([from, to]) => [from, `import '${to}';\n`]);
  const root = temporaryProject([CONFIG, 'package.json'], {
    ...sound,
    ...Object.fromEntries(planted),
    'shared/physics/imports-itself-back.ts': "import './imports-itself-around.ts';\n",
  });

  const finding = await dependencyDirectionCheck.run(root);
  expect(finding.passed).toBe(false);
  const lines = finding.passed ? [] : finding.report.split('\n');
  for (const [from, , rule] of forbidden) {
    expect(lines).toContainEqual(expect.stringMatching(new RegExp(`^${rule}.*: ${from} → `)));
  }
});

test('two folders that import each other are found, though there is no cycle of files', async () => {
  const finding = await dependencyDirectionCheck.run(
    temporaryProject([CONFIG, 'package.json'], {
      ...sound,
      'shared/statistics/root.ts': 'export const root = 1;\n',
      'shared/statistics/curves/line.ts': "import '../root.ts';\n",
      'shared/statistics/fit.ts': "import './curves/line.ts';\n",
    }),
  );
  expect(finding).toEqual({
    passed: false,
    report:
      'folders import each other: shared/statistics ↔ shared/statistics/curves (fit.ts → line.ts, line.ts → root.ts)',
  });
});

test('an import of a type alone counts as an import', async () => {
  const finding = await dependencyDirectionCheck.run(
    temporaryProject([CONFIG, 'package.json'], {
      'web/sound.ts': 'export type Sound = number;\n',
      'server/imports-type.ts': "import type { Sound } from '../web/sound.ts';\nexport type Same = Sound;\n",
    }),
  );
  expect(finding).toMatchObject({ passed: false, report: expect.stringContaining('nothing imports web') });
});

test('a run that read none of the source files fails, as does one that found none', async () => {
  const blind = 'export default { options: { exclude: { path: "[.]ts$" } } };\n';
  expect(
    await dependencyDirectionCheck.run(temporaryProject(['package.json'], { ...sound, [CONFIG]: blind })),
  ).toMatchObject({
    passed: false,
    report: expect.stringContaining('not seen by dependency-cruiser: server/sound.ts'),
  });
  expect((await dependencyDirectionCheck.run(temporaryProject([CONFIG, 'package.json'], {}))).passed).toBe(false);
});
