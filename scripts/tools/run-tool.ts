import { spawn } from 'node:child_process';
import { join } from 'node:path';

export type ToolOutput = { readonly exitCode: number; readonly stdout: string; readonly stderr: string };

/**
 * Runs a tool of node_modules under the Node that runs this process: the tool's own `#!` line would use the machine's
 * Node, which may be too old for it.
 * @param script path of the tool's entry file inside node_modules
 * @param env variables that differ from this process's environment
 */
export function runTool(
  root: string,
  script: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<ToolOutput> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, 'node_modules', script), ...args], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: undefined, ...env },
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ exitCode: code ?? 1, stdout, stderr }));
  });
}
