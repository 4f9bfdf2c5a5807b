interface Media {
  readonly schema?: unknown;
}

interface Operation {
  readonly operationId?: string;
  readonly summary?: string;
  readonly tags?: readonly string[];
  readonly parameters?: readonly { readonly in: string; readonly name: string; readonly schema?: unknown }[];
  readonly requestBody?: { readonly content?: Readonly<Record<string, Media>> };
  readonly responses?: Readonly<Record<string, { readonly content?: Readonly<Record<string, Media>> }>>;
}

/** The part of an OpenAPI document that the rules read. */
export interface OpenApiDocument {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

/** What each operation lacks, one line per fault: names, inputs, and answers with media types. */
export function openApiFaults({ paths }: OpenApiDocument): string[] {
  const named = new Map<string, string>();
  return Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).flatMap(([method, operation]) => {
      const where = `${method.toUpperCase()} ${path}`;
      const { operationId = '' } = operation;
      const twin = named.get(operationId);
      named.set(operationId, where);
      const faults = faultsOf(path, operation);
      if (twin !== undefined && operationId !== '') faults.push(`has the operationId of ${twin}`);
      return faults.map((fault) => `${where} ${fault}`);
    }),
  );
}

function faultsOf(path: string, operation: Operation): string[] {
  const { operationId, summary, tags = [], parameters = [], requestBody, responses = {} } = operation;
  const faults: string[] = [];
  if (!/^[a-z]+[A-Z]\w*$/.test(operationId ?? '')) faults.push('has no operationId');
  if (!summary?.trim()) faults.push('has no summary');
  if (tags.length === 0) faults.push('has no tag');
  for (const [, name] of path.matchAll(/\{(\w+)\}/g)) {
    if (!parameters.some((one) => one.in === 'path' && one.name === name && one.schema)) {
      faults.push(`does not say what {${name}} is`);
    }
  }
  if (requestBody && !isDescribed(requestBody.content)) faults.push('does not describe its body');
  const wentWell = Object.keys(responses).filter((status) => /^2/.test(status));
  if (wentWell.length === 0) faults.push('has no response for what went well (2xx)');
  if (!Object.keys(responses).some((status) => /^4/.test(status))) faults.push('has no response for refusals (4xx)');
  for (const [status, { content }] of Object.entries(responses)) {
    if (status !== '204' && !isDescribed(content)) faults.push(`does not describe its response ${status}`);
  }
  return faults;
}

/** Whether there is a media type, and a schema for each. */
function isDescribed(content: Readonly<Record<string, Media>> = {}): boolean {
  const media = Object.values(content);
  return media.length > 0 && media.every(({ schema }) => schema !== undefined);
}
