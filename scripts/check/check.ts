import type { ToolOutput } from '../tools/run-tool.ts';

/** The result of a check: without a report when it passed, with the tool's own output when it did not. */
export type Finding = { readonly passed: true } | { readonly passed: false; readonly report: string };

/** One of the checks of `npm run check`; `root` is the folder that holds package.json. */
export type Check = { readonly name: string; readonly run: (root: string) => Promise<Finding> };

/** Passed when there are no lines; else the lines below their heading. */
export function findingOfLines(lines: readonly string[], heading: string): Finding {
  return lines.length === 0 ? { passed: true } : { passed: false, report: [heading, ...lines].join('\n') };
}

/** Passed or not by the exit code of a tool. */
export function findingOf({ exitCode, stdout, stderr }: ToolOutput): Finding {
  return exitCode === 0 ? { passed: true } : { passed: false, report: `${stdout}${stderr}`.trim() };
}
