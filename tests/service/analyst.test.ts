import { expect, test } from 'vitest';
import { createAnalyst } from '../../server/results/analyst.ts';

test('work that comes after closing is refused: a thread started then would keep the process from ending', async () => {
  const analyst = createAnalyst();
  await analyst.close();
  await expect(
    analyst.do({ record: {} as never, boards: [], job: { kind: 'analyse', method: 'bench-1' } }),
  ).rejects.toThrow('request/closing');
});
