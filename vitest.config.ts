import { defineConfig } from 'vitest/config';

const inFolders = (...folders: string[]) => folders.map((folder) => `tests/${folder}/**/*.test.ts`);

/** What is computed, read, sent and kept: no browser, no whole service with its threads, no programs of the system. */
const FAST = inFolders(
  'analysis',
  'setup',
  'bridge',
  'comparison',
  'contract',
  'imports',
  'physics',
  'plain-boards',
  'protocol',
  'reference',
  'simulator',
  'statistics',
  'store',
);

/** Tests of these folders, and the fast ones, change nothing outside themselves: their files share what one of them has loaded. */
const TOGETHER = inFolders(
  'backup',
  'board-check',
  'command-line',
  'dataset',
  'exports',
  'firmware',
  'page',
  'reports',
  'service',
  'survey',
);

export default defineConfig({
  test: {
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // Two processors, and tests that wait for a browser a tenth of the time.
    maxWorkers: 3,
    unstubEnvs: true,
    // A process of tests is several times as large as a service, and leaves its worker so much less.
    env: { STOVEBENCH_MEMORY_MB: '2000' },
    projects: [
      { extends: true, test: { name: 'apart', include: ['tests/**/*.test.ts'], exclude: [...FAST, ...TOGETHER] } },
      { extends: true, test: { name: 'fast', include: FAST, isolate: false } },
      { extends: true, test: { name: 'together', include: TOGETHER, isolate: false } },
    ],
  },
});
