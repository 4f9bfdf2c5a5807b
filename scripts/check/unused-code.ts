import { type Check, findingOf, runTool } from './tool.ts';

export const unusedCodeCheck: Check = {
  name: 'unused code',
  run: async (root) =>
    findingOf(await runTool(root, 'knip/bin/knip.js', ['--no-progress', '--treat-config-hints-as-errors'])),
};
