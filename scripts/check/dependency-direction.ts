import { basename, dirname } from 'node:path';
import { runTool } from '../tools/run-tool.ts';
import type { Check } from './check.ts';
import { CODE_FOLDERS, sourceFiles } from './source-files.ts';

/** The part of dependency-cruiser's JSON report that is read here. */
type Report = {
  readonly modules: readonly {
    readonly source: string;
    readonly dependencies: readonly { readonly resolved: string }[];
  }[];
  readonly summary: {
    readonly violations: readonly {
      readonly from: string;
      readonly to: string;
      readonly rule: { readonly name: string };
    }[];
  };
};

/** Pairs of folders that import each other, with an import each way: a change in one is then a change in both. */
function mutualFolders({ modules }: Report): string[] {
  const imports = new Map<string, string>();
  for (const { source, dependencies } of modules) {
    for (const { resolved } of dependencies) {
      const key = `${dirname(source)} ${dirname(resolved)}`;
      if (!imports.has(key)) imports.set(key, `${basename(source)} → ${basename(resolved)}`);
    }
  }
  return [...imports].flatMap(([key, there]) => {
    const [from, to] = key.split(' ') as [string, string];
    const back = imports.get(`${to} ${from}`);
    return back && from < to ? [`folders import each other: ${from} ↔ ${to} (${there}, ${back})`] : [];
  });
}

/**
 * Checks the rules of .dependency-cruiser.mjs over every source file, and that no two folders import each other. A file
 * that dependency-cruiser did not read is a finding too: with an unsupported compiler it reads no TypeScript at all,
 * reports nothing and would pass.
 */
export const dependencyDirectionCheck: Check = {
  name: 'dependency direction',
  run: async (root) => {
    const sources = CODE_FOLDERS.map((folder) => ({ folder, paths: sourceFiles(root, folder) }));
    const folders = sources.filter(({ paths }) => paths.length > 0).map(({ folder }) => folder);
    if (folders.length === 0) return { passed: false, report: `no source file under ${CODE_FOLDERS.join(', ')}` };

    const { exitCode, stdout, stderr } = await runTool(root, 'dependency-cruiser/bin/dependency-cruise.mjs', [
      ...['--config', '.dependency-cruiser.mjs', '--output-type', 'json'],
      ...folders,
    ]);
    let report: Report;
    try {
      report = JSON.parse(stdout);
    } catch {
      return {
        passed: false,
        report: `dependency-cruiser gave no report (exit code ${exitCode})\n${stdout}${stderr}`.trim(),
      };
    }

    const seen = new Set(report.modules.map(({ source }) => source));
    const lines = [
      ...report.summary.violations.map(({ from, to, rule }) => `${rule.name}: ${from} → ${to}`),
      ...sources
        .flatMap(({ paths }) => paths)
        .filter((path) => !seen.has(path))
        .map((path) => `not seen by dependency-cruiser: ${path}`),
      ...mutualFolders(report),
    ];
    return lines.length === 0 ? { passed: true } : { passed: false, report: lines.join('\n') };
  },
};
