/** Requests for files being imported: uploading, reviewing, saving or discarding them. */
import { signal } from '@preact/signals';
import type { CorrectImport, ImportOutcome, ImportPreview, SaveImport } from '../../shared/contract/imports.ts';
import { call } from './service.ts';

/** A file as the person chose it. */
export interface ChosenFile {
  readonly content: Blob;
  readonly name: string;
  readonly as?: 'columns' | 'notes' | undefined;
}

/** The file under review, stored as long as the page stays open: the service may have discarded it meanwhile. */
export const chosenFile = signal<ChosenFile | undefined>(undefined);

/** The record of a day takes a small single-board computer minutes. */
const LONGEST_MS = 600_000;

/** Send a file for review. Nothing is saved yet. */
export function sendFile({ content, name, as }: ChosenFile): Promise<ImportPreview> {
  // The declared type of a file is ignored; the service looks at its content instead.
  const body = new Blob([content], { type: 'application/octet-stream' });
  return call('POST /imports', { query: { name: name.slice(-255), ...(as && { as }) }, body, timeoutMs: LONGEST_MS });
}

export function lookAgain(id: string, correction: CorrectImport): Promise<ImportPreview> {
  return call('POST /imports/:id/preview', { params: { id }, body: correction, timeoutMs: LONGEST_MS });
}

export function saveFile(id: string, how: Partial<SaveImport>): Promise<ImportOutcome> {
  return call('POST /imports/:id/keep', { params: { id }, body: how, timeoutMs: LONGEST_MS });
}

/** Discards a file that waits for a decision. */
export async function dropFile(id: string): Promise<void> {
  await call('DELETE /imports/:id', { params: { id } });
}

/** Typed notes are treated like any other file. */
export function notesFile(text: string): ChosenFile {
  return { content: new Blob([text], { type: 'text/plain' }), name: 'notes.txt', as: 'notes' };
}
