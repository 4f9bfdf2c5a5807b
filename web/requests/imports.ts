/** Files on their way in: what the service has of them, and what is to become of them. */
import { signal } from '@preact/signals';
import type { CorrectImport, ImportOutcome, ImportPreview, SaveImport } from '../../shared/contract/imports.ts';
import { call } from './service.ts';

/** A file as the person gave it. */
export interface ChosenFile {
  readonly content: Blob;
  readonly name: string;
  readonly as?: 'columns' | 'notes' | undefined;
}

/** The file being looked at, for as long as the page stays open: the service may have forgotten it meanwhile. */
export const chosenFile = signal<ChosenFile | undefined>(undefined);

/** The record of a day takes a small single-board computer minutes. */
const LONGEST_MS = 600_000;

/** Hand a file over to be looked at. Nothing is kept yet. */
export function sendFile({ content, name, as }: ChosenFile): Promise<ImportPreview> {
  // A file knows its own type; the service looks into it instead.
  const body = new Blob([content], { type: 'application/octet-stream' });
  return call('POST /imports', { query: { name: name.slice(-255), ...(as && { as }) }, body, timeoutMs: LONGEST_MS });
}

export function lookAgain(id: string, correction: CorrectImport): Promise<ImportPreview> {
  return call('POST /imports/:id/preview', { params: { id }, body: correction, timeoutMs: LONGEST_MS });
}

export function saveFile(id: string, how: Partial<SaveImport>): Promise<ImportOutcome> {
  return call('POST /imports/:id/keep', { params: { id }, body: how, timeoutMs: LONGEST_MS });
}

/** It waits no longer. */
export async function dropFile(id: string): Promise<void> {
  await call('DELETE /imports/:id', { params: { id } });
}

/** Notes that were typed are a file like any other. */
export function notesFile(text: string): ChosenFile {
  return { content: new Blob([text], { type: 'text/plain' }), name: 'notes.txt', as: 'notes' };
}
