import type { App } from './validation.ts';

/**
 * Which methods an address answers to. Listens to every route from now on, so it comes before them.
 * @returns of a path, its methods in the order of the alphabet; none where nothing answers. Files and pages are no routes of ours
 */
export function watchAllowedMethods(app: App): (path: string) => string[] {
  const byPattern = new Map<string, { matches: RegExp; methods: Set<string> }>();
  app.addHook('onRoute', ({ method, url }) => {
    if (!url.startsWith('/api/')) return;
    const known = byPattern.get(url) ?? { matches: asExpression(url), methods: new Set<string>() };
    byPattern.set(url, known);
    for (const each of [method].flat()) known.methods.add(each);
  });
  return (path) => {
    const found = [...byPattern.values()].filter(({ matches }) => matches.test(path));
    return [...new Set(found.flatMap(({ methods }) => [...methods]))].sort();
  };
}

/** `/api/burns/:id` as what it matches. */
function asExpression(pattern: string): RegExp {
  const parts = pattern.split('/').map((part) => (part.startsWith(':') ? '[^/]+' : part.replaceAll('.', '\\.')));
  return new RegExp(`^${parts.join('/')}$`);
}
