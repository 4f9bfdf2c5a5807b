import { expect, test } from 'vitest';
import { lintAndFormatCheck } from '../../scripts/check/lint-format.ts';
import { temporaryProject } from '../support/temporary-folder.ts';

const findingFor = (source: string) =>
  lintAndFormatCheck.run(temporaryProject(['biome.json', '.gitignore'], { 'shared/planted.ts': source }));

test('correct, well-formatted code passes', async () => {
  expect(await findingFor("export const unit = 'kg';\n")).toEqual({ passed: true });
});

test('an unused variable is refused', async () => {
  const finding = await findingFor('const massKg = 25;\n');
  expect(finding).toMatchObject({ passed: false, report: expect.stringContaining('noUnusedVariables') });
});

test('a finding of warning level is refused too', async () => {
  const finding = await findingFor(
    "// biome-ignore lint/suspicious/noDebugger: none here\nexport const unit = 'kg';\n",
  );
  expect(finding).toMatchObject({ passed: false, report: expect.stringContaining('suppressions/unused') });
});

test('code in another format is refused', async () => {
  const finding = await findingFor('export const unit = "kg"\n');
  expect(finding).toMatchObject({ passed: false, report: expect.stringContaining('format') });
});

test('a run without any file fails', async () => {
  const finding = await lintAndFormatCheck.run(temporaryProject(['.gitignore'], {}));
  expect(finding.passed).toBe(false);
});
