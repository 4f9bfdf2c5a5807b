/** Collects declarations and checks them: unique names, all inputs declared, no cycle. */
import type { Declaration, Quantity } from './declaration.ts';

/** Returns all declarations that some quantities depend on, including themselves, each once. */
export function declarationsOf<Subject>(quantities: readonly Quantity<Subject>[]): Declaration<Subject>[] {
  const found = new Set<Declaration<Subject>>();
  const collect = (declaration: Declaration<Subject>): void => {
    if (found.has(declaration)) return;
    found.add(declaration);
    for (const needed of declaration.needs) collect(needed);
  };
  for (const quantity of quantities) collect(quantity);
  return [...found];
}

/**
 * Checks declarations against each other.
 * @throws Error where two have one name, one depends on one that is not among them, the number of a formula's arguments
 * differs from its inputs, or there is a cycle
 */
export function checkDeclarations<Subject>(declarations: readonly Declaration<Subject>[]): void {
  const byName = new Map<string, Declaration<Subject>>();
  for (const declaration of declarations) {
    const { name } = declaration;
    if (byName.has(name)) throw new Error(`Two declarations are named ${name}`);
    byName.set(name, declaration);
    if (declaration.kind === 'fact') continue;
    const { inputs, argumentCount } = declaration;
    if (inputs && inputs.length !== argumentCount) {
      throw new Error(`${name} declares ${inputs.length} inputs, and its formula takes ${argumentCount}`);
    }
  }
  const finished = new Set<string>();
  for (const declaration of declarations) visit(declaration, []);

  function visit({ name, needs }: Declaration<Subject>, path: readonly string[]): void {
    if (path.includes(name)) throw new Error(`These need each other: ${[...path, name].join(', ')}`);
    if (finished.has(name)) return;
    for (const needed of needs) {
      // An input that is undefined comes from two files that import each other.
      const known = needed && byName.get(needed.name);
      if (!known) throw new Error(`${name} needs ${needed?.name ?? 'something'} that is not declared`);
      visit(known, [...path, name]);
    }
    finished.add(name);
  }
}
