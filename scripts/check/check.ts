import type { ToolOutput } from '../tools/run-tool.ts';

/** What a check found: nothing to say when it passed, the tool's own words when it did not. */
export type Finding = { readonly passed: true } | { readonly passed: false; readonly report: string };

/** One of the checks of `npm run check`; `root` is the folder that holds package.json. */
export type Check = { readonly name: string; readonly run: (root: string) => Promise<Finding> };

/** Passed when no line tells of anything wrong; else the lines below their heading. */
export function findingOfLines(lines: readonly string[], heading: string): Finding {
  return lines.length === 0 ? { passed: true } : { passed: false, report: [heading, ...lines].join('\n') };
}

/** Judges a tool by its exit code alone. */
export function findingOf({ exitCode, stdout, stderr }: ToolOutput): Finding {
  return exitCode === 0 ? { passed: true } : { passed: false, report: `${stdout}${stderr}`.trim() };
}
