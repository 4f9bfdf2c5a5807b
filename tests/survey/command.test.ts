import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { questionNames } from '../../server/survey/questions.ts';
import { surveyEn } from '../../shared/language/survey/survey.en.ts';
import { surveyFr } from '../../shared/language/survey/survey.fr.ts';
import { stovebench } from '../command-line/run-command.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { type GivenBurn, publishedBurns } from './written-burns.ts';

/** Two stoves on two benches, three burns of each of two revisions, one lot: every question has an answer. Invented. */
function burnsOfTwoBenches(change: Partial<GivenBurn> = {}): GivenBurn[] {
  return ['a', 'b'].flatMap((bench, ofBench) =>
    ['Heron', 'Stork'].flatMap((stove, ofStove) =>
      ['1', '2'].flatMap((revision, ofRevision) =>
        [0, 1, 2].map((number) => ({
          bench,
          burn: `${bench} ${stove} ${revision} ${number}`,
          stove,
          revision,
          parent: revision === '2' ? '1' : undefined,
          lot: 'beech',
          startedDay: 30 * number,
          results: {
            dryWoodPerBatch: [3 - 0.5 * ofRevision + 0.1 * ofBench + 0.2 * ofStove + 0.01 * number, 0.1] as const,
          },
          ...change,
        })),
      ),
    ),
  );
}

test('it prints the tables, and writes a page with figures and without scripts, and every answer as JSON', async () => {
  const folder = publishedBurns(burnsOfTwoBenches());
  const output = join(temporaryFolder(), 'survey.html');
  const { code, stdout, stderr } = await stovebench(['survey', folder, '--output', output]);
  expect(code).toBe(0);
  const page = readFileSync(output, 'utf8');
  expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  // Each for a wide screen and for a phone.
  expect(page.match(/<svg/g)?.length).toBe(2 * 5);
  for (const question of questionNames) {
    const { question: text } = surveyEn.questions[question];
    expect(page).toContain(text);
    expect(stderr).toContain(`## ${text}`);
  }
  expect(stderr).toContain('Heron, 1 → 2: lower on 2 of 2 benches; by more than chance (95 %) on 2');
  expect(stderr).toMatch(/Heron +1 +2 +6 +3\.06.kg/);
  const answer = JSON.parse(stdout);
  expect(answer).toMatchObject({ file: output, unit: 'kg', choice: { result: 'dryWoodPerBatch', start: 'cold' } });
  expect(Object.keys(answer.findings)).toEqual(questionNames);

  const again = await stovebench(['survey', folder, '--output', output]);
  expect(again.code).toBe(2);
  expect(again.stderr).toContain('--force');
});

test('it prints in French, with decimal commas', async () => {
  const folder = publishedBurns(burnsOfTwoBenches());
  const { code, stdout } = await stovebench(['survey', folder, '--language', 'fr', '--output', '-']);
  expect(code).toBe(0);
  expect(stdout).toContain('<html lang="fr">');
  expect(stdout).toContain('3,06');
  for (const question of questionNames) expect(stdout).toContain(surveyFr.questions[question].question);
});

test('simulated burns are never pooled with measured ones, and are labelled on the page', async () => {
  const folder = publishedBurns(burnsOfTwoBenches({ simulated: true }));
  const refused = await stovebench(['survey', folder, '--output', '-']);
  expect([refused.code, refused.stdout]).toEqual([2, '']);
  expect(refused.stderr).toContain('there are 0 measured and 24 simulated ones');
  const asked = await stovebench(['survey', folder, '--simulated', '--output', '-']);
  expect(asked.code).toBe(0);
  expect(asked.stdout).toContain('<h1 dir="auto">Survey of SIMULATED burns</h1>');
});

test.each([
  [[], 'FOLDER is missing'],
  [['/nonexistent/dataset'], '/nonexistent/dataset holds no published burns'],
  [['/nonexistent/dataset', '--result', 'woodSmoke'], '--result woodSmoke is not known'],
  [['/nonexistent/dataset', '--start', 'warm'], '--start warm is not known. Choose one of: cold, hot'],
])('a command line that is wrong (%j) is refused in one sentence', async (args, sentence) => {
  const { code, stdout, stderr } = await stovebench(['survey', ...args, '--output', '-']);
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain(sentence);
});

test('a damaged file is named, and nothing is written', async () => {
  const folder = publishedBurns(burnsOfTwoBenches());
  const damaged = join(folder, 'results/bench=a/year=2026/2026-01.parquet');
  writeFileSync(damaged, readFileSync(damaged).subarray(0, 500));
  const output = join(temporaryFolder(), 'survey.html');
  const { code, stderr } = await stovebench(['survey', folder, '--output', output]);
  expect(code).toBe(3);
  expect(stderr).toContain('2026-01.parquet');
  expect(existsSync(output)).toBe(false);
});
