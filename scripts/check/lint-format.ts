import { runTool } from '../tools/run-tool.ts';
import { type Check, findingOf } from './check.ts';

/** Warnings are errors: a finding that needs no action is noise. */
const ARGS = ['check', '--error-on-warnings', '.'];

export const lintAndFormatCheck: Check = {
  name: 'lint and format',
  run: async (root) => findingOf(await runTool(root, '@biomejs/biome/bin/biome', ARGS)),
};
