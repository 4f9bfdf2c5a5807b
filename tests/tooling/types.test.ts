import { describe, expect, test } from 'vitest';
import { typesChecks } from '../../scripts/check/types.ts';
import { temporaryProject } from '../support/temporary-folder.ts';

const wrongType = 'export const massKg: number = "25";\n';

/** Code that each folder must refuse, with a word of the compiler's message. */
const planted: Readonly<Record<string, readonly { readonly source: string; readonly complaint: string }[]>> = {
  'firmware-protocol': [{ source: 'export const uptime = process.uptime();\n', complaint: 'process' }],
  shared: [
    { source: 'export const title = document.title;\n', complaint: 'document' },
    { source: 'export const home = process.env.HOME;\n', complaint: 'process' },
  ],
  server: [
    { source: 'export const title = document.title;\n', complaint: 'document' },
    { source: 'export enum Phase {\n  Lit,\n}\n', complaint: 'erasableSyntaxOnly' },
  ],
  web: [{ source: 'export const home = process.env.HOME;\n', complaint: 'process' }],
  tests: [{ source: wrongType, complaint: 'number' }],
  scripts: [{ source: wrongType, complaint: 'number' }],
};

describe.each(typesChecks)('the check of $name', ({ name, run }) => {
  const folder = name.replace('types in ', '');
  const plants = planted[folder] ?? [];

  test('refuses code that does not belong there', async () => {
    expect(plants).not.toHaveLength(0);
    const sources = plants.map(({ source }, number) => [`${folder}/planted-${number}.ts`, source]);
    const finding = await run(
      temporaryProject(['tsconfig.json', `${folder}/tsconfig.json`], Object.fromEntries(sources)),
    );

    expect(finding.passed).toBe(false);
    plants.forEach(({ complaint }, number) => {
      expect(finding).toHaveProperty('report', expect.stringMatching(new RegExp(`planted-${number}.*${complaint}`)));
    });
  });
});

test('the check of types in shared accepts correct code, and fails without any code', async () => {
  const { run } = typesChecks.find(({ name }) => name === 'types in shared')!;
  const copied = ['package.json', 'tsconfig.json', 'shared/tsconfig.json'];

  expect(await run(temporaryProject(copied, { 'shared/sound.ts': 'export const massKg: number = 25;\n' }))).toEqual({
    passed: true,
  });
  expect((await run(temporaryProject(copied, {}))).passed).toBe(false);
});

test('a source file that the compiler does not include fails the check', async () => {
  const { run } = typesChecks.find(({ name }) => name === 'types in shared')!;
  const finding = await run(
    temporaryProject(['package.json', 'tsconfig.json'], {
      'shared/tsconfig.json': '{ "extends": "../tsconfig.json", "include": ["seen.ts"] }',
      'shared/seen.ts': 'export const massKg: number = 25;\n',
      'shared/overlooked.ts': 'export const massKg: number = "25";\n',
    }),
  );
  expect(finding).toEqual({ passed: false, report: 'not seen by the compiler: shared/overlooked.ts' });
});
