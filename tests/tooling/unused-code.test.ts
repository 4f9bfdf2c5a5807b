import { expect, test } from 'vitest';
import { unusedCodeCheck } from '../../scripts/check/unused-code.ts';
import { temporaryProject } from '../support/temporary-folder.ts';

const manifest = (dependencies: Record<string, string>) =>
  JSON.stringify({ name: 'planted', type: 'module', dependencies });
const config = JSON.stringify({ entry: ['server/main.ts'], project: ['{shared,server}/**/*.ts'] });
const sound = {
  'package.json': manifest({}),
  'knip.json': config,
  'server/main.ts': "import { massKg } from '../shared/load.ts';\nconsole.log(massKg);\n",
  'shared/load.ts': 'export const massKg = 25;\n',
};

test('code without unused parts passes', async () => {
  expect(await unusedCodeCheck.run(temporaryProject([], sound))).toEqual({ passed: true });
});

test('unused files, exports and packages are refused', async () => {
  const finding = await unusedCodeCheck.run(
    temporaryProject([], {
      ...sound,
      'package.json': manifest({ zod: '4.6.7' }),
      'shared/load.ts': 'export const massKg = 25;\nexport const tempC = 9;\n',
      'shared/forgotten.ts': 'export const forgotten = true;\n',
    }),
  );

  expect(finding.passed).toBe(false);
  for (const unused of ['tempC', 'shared/forgotten.ts', 'zod']) {
    expect(finding).toHaveProperty('report', expect.stringContaining(unused));
  }
});

test('an entry pattern that matches nothing is refused, since the files it is for are then not checked', async () => {
  const finding = await unusedCodeCheck.run(
    temporaryProject([], { ...sound, 'knip.json': config.replace('server/main.ts', 'server/gone.ts') }),
  );
  expect(finding.passed).toBe(false);
});
