import { runTool } from '../tools/run-tool.ts';
import { type Check, findingOf } from './check.ts';

export const unusedCodeCheck: Check = {
  name: 'unused code',
  run: async (root) =>
    findingOf(await runTool(root, 'knip/bin/knip.js', ['--no-progress', '--treat-config-hints-as-errors'])),
};
