import { basename } from 'node:path';
import { type ImportPreview, importChoices } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import {
  type Command,
  exitCodes,
  numberOf,
  oneOf,
  print,
  printError,
  readArgs,
  word,
} from '../base/command-options.ts';
import { answered, type Client, clientOptions, withClient } from './client.ts';
import { findBurn, listBurns } from './find-burn.ts';
import { importDataset, isFolder } from './import-dataset.ts';
import { reviewOf } from './import-review.ts';
import { readInput, readJsonInput } from './input-file.ts';
import { saveImport } from './save-import.ts';

const kinds = ['columns', 'notes'] as const;

const options = {
  ...clientOptions,
  preview: { type: 'boolean' },
  keep: { type: 'string' },
  choices: { type: 'string' },
  as: { type: 'string' },
  reading: { type: 'string' },
  into: { type: 'string' },
  at: { type: 'string' },
  title: { type: 'string' },
} as const;

/** Options valid for a folder of published burns. */
const OF_FOLDERS = [...Object.keys(clientOptions), 'keep'];

export const command: Command = {
  help: () => word('import'),
  async run(args) {
    const { values, positionals } = readArgs('import', options, args, 1);
    const [file] = positionals;
    if (file === undefined) {
      throw new AppError('command/argument-missing', { command: 'import', what: 'FILE' });
    }
    const as = oneOf('--as', values.as, kinds);
    const otherwise = oneOf('--keep', values.keep, importChoices);
    const atElapsedS = numberOf('--at', values.at, Number.NEGATIVE_INFINITY);
    const decisions = values.choices === undefined ? undefined : readJsonInput(values.choices);
    const reading = values.reading === undefined ? undefined : readJsonInput(values.reading);
    if (file !== '-' && isFolder(file)) {
      if (Object.keys(values).some((name) => !OF_FOLDERS.includes(name))) {
        throw new AppError('dataset/options', { folder: file });
      }
      print(await withClient(values, (client) => importDataset(client, file, otherwise ? { otherwise } : {})));
      return exitCodes.done;
    }
    const bytes = readInput(file);

    return withClient(values, async (client) => {
      const name = encodeURIComponent(file === '-' ? 'file' : basename(file));
      const query = `name=${name}${as ? `&as=${as}` : ''}`;
      let seen = await answered<ImportPreview>(client.request('POST', `/api/imports?${query}`, { bytes }));
      const correction = reading === undefined ? {} : { [seen.kind]: reading };
      if (reading !== undefined) {
        seen = await lookAgain(client, seen.id, correction);
      }
      for (const line of reviewOf(seen)) printError(line);
      if (values.preview) {
        await client.request('DELETE', `/api/imports/${seen.id}`);
        const { id: _id, ...shown } = seen;
        print(shown);
        return exitCodes.done;
      }
      const how = {
        ...correction,
        ...(otherwise && { otherwise }),
        ...(decisions !== undefined && { decisions }),
        ...(values.title !== undefined && { title: values.title }),
        ...(atElapsedS !== undefined && { atElapsedS }),
        ...(values.into !== undefined && { into: findBurn(await listBurns(client), values.into).id }),
      };
      print(await saveImport(client, seen.id, how));
      return exitCodes.done;
    });
  },
};

async function lookAgain(client: Client, id: string, correction: object): Promise<ImportPreview> {
  try {
    return await answered<ImportPreview>(client.request('POST', `/api/imports/${id}/preview`, { json: correction }));
  } catch (error) {
    await client.request('DELETE', `/api/imports/${id}`).catch(() => {});
    throw error;
  }
}
