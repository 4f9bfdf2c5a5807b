import { defineConfig } from 'vitest/config';

/** Tests of these folders change nothing outside themselves: their files share what one of them has loaded. */
const TOGETHER = [
  'analysis',
  'bench',
  'bridge',
  'comparison',
  'contract',
  'exports',
  'firmware',
  'imports',
  'page',
  'protocol',
  'physics',
  'reference',
  'reports',
  'service',
  'simulator',
  'statistics',
  'store',
].map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    unstubEnvs: true,
    projects: [
      { extends: true, test: { name: 'apart', include: ['tests/**/*.test.ts'], exclude: TOGETHER } },
      { extends: true, test: { name: 'together', include: TOGETHER, isolate: false } },
    ],
  },
});
