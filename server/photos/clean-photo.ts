/** A photo without its metadata, as the worker produces it. */
import { createHash } from 'node:crypto';
import { AppError } from '../base/app-error.ts';
import { pictureKind, withoutNotes } from './picture.ts';

export interface CleanPhoto {
  /** The SHA-256 of the picture, with the extension of its format. */
  name: string;
  picture: Uint8Array;
}

/** @throws AppError photo/not-a-photo */
export function cleanPhoto(sent: Uint8Array): CleanPhoto {
  const bytes = Buffer.from(sent.buffer, sent.byteOffset, sent.byteLength);
  const kind = pictureKind(bytes);
  const picture = kind && withoutNotes(bytes, kind);
  if (!picture) throw new AppError('photo/not-a-photo');
  return { name: `${createHash('sha256').update(picture).digest('hex')}.${kind}`, picture };
}
