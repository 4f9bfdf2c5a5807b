import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import ts from 'typescript';
import type { Check } from './check.ts';
import { CODE_FOLDERS, sourceFiles } from './source-files.ts';

/**
 * Checks that names of files and of what is declared in them use the terms of the glossary in DEVELOPERS.md and none of
 * the words in its last column. A published name (a code, a field of a record, a route) is permitted when it is in the
 * list below the table.
 */
export const glossaryCheck: Check = {
  name: 'glossary',
  run: async (root) => {
    const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8').match(/^## Glossary$.*?(?=^## )/ms)?.[0] ?? '';
    const termOf = refusedWords(text);
    if (termOf.size === 0) return { passed: false, report: 'DEVELOPERS.md has no glossary with words to avoid' };
    const published = new Set([...text.matchAll(/^(?!\|).*$/gm)].flatMap(([line]) => quoted(line)));
    const lines = CODE_FOLDERS.flatMap((folder) => sourceFiles(root, folder)).flatMap((path) =>
      [basename(path), ...declaredNames(readFileSync(join(root, path), 'utf8'), path)].flatMap((name) =>
        published.has(name)
          ? []
          : wordsOf(name)
              .filter((word) => termOf.has(word))
              .map((word) => `${path}: ${name} (not ${word}, but ${termOf.get(word)})`),
      ),
    );
    return lines.length === 0 ? { passed: true } : { passed: false, report: [...new Set(lines)].sort().join('\n') };
  },
};

/** Words to avoid, each with the term of its row. */
function refusedWords(glossary: string): Map<string, string> {
  const rows = [...glossary.matchAll(/^\| ([^|]+) \|(?:[^|]*\|){3} ([^|]*) \|$/gm)].slice(1);
  return new Map(
    rows.flatMap(([, term, words]) =>
      words!
        .split(', ')
        .filter(Boolean)
        .map((word) => [word, term!] as const),
    ),
  );
}

function quoted(line: string): string[] {
  return [...line.matchAll(/`([^`]+)`/g)].map(([, name]) => name!);
}

/** Words of a name in camel case, snake case or kebab case. */
function wordsOf(name: string): string[] {
  return name
    .replace(/([a-z\d])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z\d]+/);
}

/** All names declared in a file: variables, functions, types, parameters, members. */
function declaredNames(source: string, path: string): string[] {
  const kind = path.endsWith('x') ? ts.ScriptKind.TSX : path.endsWith('.mjs') ? ts.ScriptKind.JS : ts.ScriptKind.TS;
  const names: string[] = [];
  const visit = (node: ts.Node): void => {
    const { name } = node as { name?: ts.Node };
    if (name && ts.isIdentifier(name) && !ts.isPropertyAccessExpression(node) && !ts.isJsxAttribute(node))
      names.push(name.text);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, source, ts.ScriptTarget.Latest, false, kind));
  return names;
}
