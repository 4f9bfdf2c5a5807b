/**
 * Photos as sent by a phone: their format, and the same picture without metadata. Segments and chunks that are not
 * known to be part of the picture are omitted, so that no metadata survives under an unknown name.
 *
 * Formats: JPEG by ITU-T T.81 annex B (segments) and CIPA DC-008 "Exif 2.32" (APP1); PNG by ISO/IEC 15948 (chunks);
 * WebP by RFC 9649 (RIFF chunks).
 */
export type PictureKind = 'jpg' | 'png' | 'webp';

const PNG_SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** By its first bytes: neither a name nor a declared type is reliable. */
export function pictureKind(bytes: Buffer): PictureKind | undefined {
  if (bytes.length > 4 && bytes.readUIntBE(0, 3) === 0xffd8ff) return 'jpg';
  if (bytes.subarray(0, 8).equals(PNG_SIGNATURE)) return 'png';
  if (bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP') return 'webp';
  return undefined;
}

/**
 * The picture, byte for byte, without place, time, device and other metadata; the orientation of a JPEG is preserved.
 * @returns undefined when the file does not have the structure that its first bytes announce
 */
export function withoutNotes(bytes: Buffer, kind: PictureKind): Buffer | undefined {
  try {
    if (kind === 'jpg') return jpegWithoutNotes(bytes);
    return kind === 'png' ? pngWithoutNotes(bytes) : webpWithoutNotes(bytes);
  } catch (error) {
    // A length that points past the end of the file.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/**
 * Of a picture and its metadata. A picture of 12 MB has some thousands; a million empty ones would take a hundred times
 * its memory, or half a minute.
 */
const MOST_PIECES = 20_000;

const FIRST_APP = 0xe0;
const APP1 = 0xe1;
const LAST_APP = 0xef;
const COMMENT = 0xfe;
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;

/** Application data and comments: of these only the orientation is needed to show the picture. */
const isNote = (marker: number) => (marker >= FIRST_APP && marker <= LAST_APP) || marker === COMMENT;

/** After the end of the image another one may follow, or a film, with metadata of its own. */
function jpegWithoutNotes(bytes: Buffer): Buffer | undefined {
  const stored: Buffer[] = [bytes.subarray(0, 2)];
  let orientation: number | undefined;
  for (let at = 2, pieces = 0; ; ) {
    if (bytes.readUInt8(at) !== 0xff || ++pieces > MOST_PIECES) return undefined;
    const marker = bytes.readUInt8(at + 1);
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === END_OF_IMAGE) {
      stored.push(bytes.subarray(at, at + 2));
      break;
    }
    const afterHead = at + 2 + bytes.readUInt16BE(at + 2);
    const end = marker === START_OF_SCAN ? endOfScan(bytes, afterHead) : afterHead;
    if (end > bytes.length) return undefined;
    if (marker === APP1) orientation ??= exifOrientation(bytes.subarray(at + 4, end));
    if (!isNote(marker)) stored.push(bytes.subarray(at, end));
    at = end;
  }
  if (orientation !== undefined && orientation > 1) stored.splice(1, 0, orientationSegment(orientation));
  return Buffer.concat(stored);
}

/** The next segment after the data of a scan, in which 0xff is followed by 0, a restart marker or another 0xff. */
function endOfScan(bytes: Buffer, from: number): number {
  // Byte by byte: searching for each 0xff takes a second where a crafted picture has nothing else.
  for (let at = from; at + 1 < bytes.length; at++) {
    if (bytes[at] !== 0xff) continue;
    const marker = bytes[at + 1]!;
    if (marker === 0xff) continue;
    if (marker !== 0 && (marker < 0xd0 || marker > 0xd7)) return at;
  }
  throw new RangeError('no end of image');
}

const ORIENTATION_TAG = 0x0112;

/** @param exif payload of an APP1 segment */
function exifOrientation(exif: Buffer): number | undefined {
  if (exif.toString('latin1', 0, 6) !== 'Exif\0\0') return undefined;
  const tiff = exif.subarray(6);
  const little = tiff.toString('latin1', 0, 2) === 'II';
  const u16 = (at: number) => (little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const u32 = (at: number) => (little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at));
  try {
    const directory = u32(4);
    for (let entry = 0; entry < u16(directory); entry++) {
      const at = directory + 2 + 12 * entry;
      if (u16(at) === ORIENTATION_TAG) return u16(at + 8);
    }
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
  }
  return undefined;
}

/** An APP1 segment that contains the orientation and nothing else. */
function orientationSegment(orientation: number): Buffer {
  const tiff = Buffer.alloc(26);
  tiff.write('MM', 0, 'latin1');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(1, 8);
  tiff.writeUInt16BE(ORIENTATION_TAG, 10);
  tiff.writeUInt16BE(3, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt16BE(orientation, 18);
  const payload = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const head = Buffer.from([0xff, APP1, 0, 0]);
  head.writeUInt16BE(payload.length + 2, 2);
  return Buffer.concat([head, payload]);
}

/** The picture itself, and its colours where they are plain numbers: ISO/IEC 15948, 11.2 and 11.3. */
const PNG_PICTURE = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'gAMA', 'cHRM', 'sRGB', 'sBIT']);

function pngWithoutNotes(bytes: Buffer): Buffer | undefined {
  const stored: Buffer[] = [PNG_SIGNATURE];
  for (let at = 8, pieces = 0; ; ) {
    const end = at + 12 + bytes.readUInt32BE(at);
    const name = bytes.toString('latin1', at + 4, at + 8);
    if (end > bytes.length || ++pieces > MOST_PIECES) return undefined;
    if (PNG_PICTURE.has(name)) stored.push(bytes.subarray(at, end));
    if (name === 'IEND') return Buffer.concat(stored);
    at = end;
  }
}

/** A still picture: RFC 9649, 2.5 to 2.7. */
const WEBP_PICTURE = new Set(['VP8X', 'ALPH', 'VP8 ', 'VP8L']);
/** In the flags of the VP8X chunk: a colour profile, Exif and XMP follow. */
const WEBP_NOTE_FLAGS = 0x2c;

function webpWithoutNotes(bytes: Buffer): Buffer | undefined {
  const stored: Buffer[] = [];
  const total = 8 + bytes.readUInt32LE(4);
  // An animation has no still picture.
  let hasPicture = false;
  for (let at = 12, pieces = 0; at < total; ) {
    const length = bytes.readUInt32LE(at + 4);
    const end = at + 8 + length + (length % 2);
    if (end > bytes.length || ++pieces > MOST_PIECES) return undefined;
    const name = bytes.toString('latin1', at, at + 4);
    const chunk = name === 'VP8X' ? Buffer.from(bytes.subarray(at, end)) : bytes.subarray(at, end);
    if (name === 'VP8X') chunk.writeUInt8(chunk.readUInt8(8) & ~WEBP_NOTE_FLAGS, 8);
    else hasPicture ||= name === 'VP8 ' || name === 'VP8L';
    if (WEBP_PICTURE.has(name)) stored.push(chunk);
    at = end;
  }
  const body = Buffer.concat(stored);
  const head = Buffer.from(bytes.subarray(0, 12));
  head.writeUInt32LE(4 + body.length, 4);
  return hasPicture ? Buffer.concat([head, body]) : undefined;
}
