import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { expect, test as plainTest } from 'vitest';
import { test as browserTest } from '../support/browser.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

const SECRET = Buffer.from('N 47 13 05 E 5 57 30');

/** One JPEG segment: ITU-T T.81, B.1.1.4. */
function segment(marker: number, payload: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(payload.length + 2, 2);
  return Buffer.concat([head, payload]);
}

/** Exif with one entry, the orientation, in the byte order of most phones, and a location after it. */
function exif(orientation: number): Buffer {
  const tiff = Buffer.alloc(26);
  tiff.write('II', 'latin1');
  tiff.writeUInt16LE(42, 2);
  tiff.writeUInt32LE(8, 4);
  tiff.writeUInt16LE(1, 8);
  tiff.writeUInt16LE(0x0112, 10);
  tiff.writeUInt16LE(3, 12);
  tiff.writeUInt32LE(1, 14);
  tiff.writeUInt16LE(orientation, 18);
  return Buffer.concat([Buffer.from('Exif\0\0'), tiff, SECRET]);
}

/** Inserts metadata after the first two bytes of a JPEG, and more after its end. */
function withNotes(jpeg: Buffer, orientation: number): Buffer {
  const every = Array.from({ length: 16 }, (_, at) => segment(0xe0 + at, SECRET));
  const notes = [segment(0xe1, exif(orientation)), ...every, segment(0xfe, SECRET)];
  const end = jpeg.length - 2;
  // After the scan too, where some cameras append a second picture.
  return Buffer.concat([jpeg.subarray(0, 2), ...notes, jpeg.subarray(2, end), ...every, jpeg.subarray(end), SECRET]);
}

/** ISO/IEC 15948, 5.3; the check value is not read here. */
function chunk(name: string, payload: Buffer): Buffer {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(payload.length);
  return Buffer.concat([length, Buffer.from(name), payload, Buffer.alloc(4)]);
}

const PNG = Buffer.concat([
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
  chunk('IHDR', Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0])),
  chunk('eXIf', SECRET),
  chunk('tEXt', SECRET),
  chunk('iCCP', SECRET),
  chunk('prVt', SECRET),
  chunk('IDAT', deflateSync(Buffer.from([0, 0]))),
  chunk('IEND', Buffer.alloc(0)),
]);

/** RFC 9649, 2.7: a header with the flag "animation", and one frame without any. */
function animation(): Buffer {
  const head = Buffer.from('VP8X\x0a\0\0\0\x02\0\0\0\0\0\0\0\0\0ANMF\0\0\0\0', 'latin1');
  const riff = Buffer.from('RIFF\0\0\0\0WEBP', 'latin1');
  riff.writeUInt32LE(4 + head.length, 4);
  return Buffer.concat([riff, head]);
}

async function photoBench(folder = temporaryFolder()) {
  const service = await testService({ folder });
  const send = async (photo: Buffer, type = 'image/jpeg') => {
    const answer = await service.app.inject({
      method: 'POST',
      url: '/api/photos',
      headers: { 'content-type': type },
      payload: photo,
    });
    return { status: answer.statusCode, body: answer.json() };
  };
  const fetchPhoto = (name: string) => service.app.inject({ method: 'GET', url: `/api/photos/${name}` });
  return { ...service, send, fetchPhoto };
}

browserTest(
  'a browser shows the photo upright as before, and nothing of where it was taken is left',
  async ({ openPage }) => {
    const { send, fetchPhoto } = await photoBench();
    const page = await openPage('about:blank');
    const draw = (type: string) =>
      page.evaluate(async (wanted) => {
        const canvas = document.createElement('canvas');
        canvas.width = 20;
        canvas.height = 10;
        canvas.getContext('2d')!.fillRect(0, 0, 10, 10);
        return canvas.toDataURL(wanted).split(',')[1] ?? '';
      }, type);
    const sizeOf = (bytes: Buffer, type: string) =>
      page.evaluate(
        async ([base64, wanted]) => {
          const image = new Image();
          image.src = `data:${wanted};base64,${base64}`;
          await image.decode();
          return [image.naturalWidth, image.naturalHeight];
        },
        [bytes.toString('base64'), type],
      );
    const jpeg = withNotes(Buffer.from(await draw('image/jpeg'), 'base64'), 6);
    const sent = await send(jpeg);
    expect(sent.status).toBe(201);
    const answer = await fetchPhoto(sent.body.photo);
    expect(answer.headers['content-type']).toBe('image/jpeg');
    expect(answer.rawPayload.includes(SECRET)).toBe(false);
    // Orientation 6: a browser rotates it by a quarter, so that width and height change places.
    expect(await sizeOf(answer.rawPayload, 'image/jpeg')).toEqual([10, 20]);
    const webp = Buffer.from(await draw('image/webp'), 'base64');
    const plain = (await send(webp, 'image/webp')).body.photo;
    expect(await sizeOf((await fetchPhoto(plain)).rawPayload, 'image/webp')).toEqual([20, 10]);
    const note = Buffer.concat([Buffer.from('EXIF'), Buffer.from([SECRET.length, 0, 0, 0]), SECRET]);
    const noted = Buffer.concat([webp, note]);
    noted.writeUInt32LE(noted.length - 8, 4);
    expect((await send(noted, 'image/webp')).body.photo).toBe(plain);
  },
);

plainTest('a photo is a file named by what is in it, kept once, and serves as the photo of a mark', async () => {
  const { send, fetchPhoto, call, folder } = await photoBench();
  const first = await send(PNG, 'image/png');
  expect(first).toMatchObject({ status: 201, body: { photo: expect.stringMatching(/^[0-9a-f]{64}\.png$/) } });
  expect(await send(PNG, 'image/png')).toMatchObject({ status: 200, body: first.body });
  expect(readdirSync(join(folder, 'photos'))).toEqual([first.body.photo]);
  const answer = await fetchPhoto(first.body.photo);
  expect(answer.rawPayload.includes(SECRET)).toBe(false);
  expect(answer.headers).toMatchObject({ 'content-type': 'image/png', 'x-content-type-options': 'nosniff' });
  expect(answer.headers['cache-control']).toContain('immutable');
  const { burn } = (await call('POST', '/api/burns', { title: 'Heron 2', status: 'running' })).body;
  const mark = { kind: 'photo', photo: first.body.photo };
  expect((await call('POST', `/api/burns/${burn.id}/marks`, mark)).status).toBe(201);
});

plainTest.each([
  ['text that says it is a photo', Buffer.from('hello'), 'image/png', 'photo/not-a-photo'],
  ['a page that says it is a photo', Buffer.from('<svg onload="alert(1)"/>'), 'image/jpeg', 'photo/not-a-photo'],
  ['a photo cut short', PNG.subarray(0, 60), 'image/png', 'photo/not-a-photo'],
  ['a JPEG without its end', Buffer.from([0xff, 0xd8, 0xff, 0xda, 0, 2, 1, 2, 3]), 'image/jpeg', 'photo/not-a-photo'],
  [
    'a photo of a million empty pieces',
    Buffer.concat([PNG.subarray(0, 8), ...Array.from({ length: 900_000 }, () => chunk('IDAT', Buffer.alloc(0)))]),
    'image/png',
    'photo/not-a-photo',
  ],
  ['an animation', animation(), 'image/webp', 'photo/not-a-photo'],
  ['nothing', Buffer.alloc(0), 'image/webp', 'photo/not-a-photo'],
  ['a photo of 13 MB', Buffer.alloc(13 * 1024 * 1024), 'image/jpeg', 'photo/too-large'],
  ['another kind of picture', Buffer.from('GIF89a'), 'image/gif', 'request/unreadable'],
])('%s is refused, and nothing is kept', async (_what, bytes, type, code) => {
  const { send, folder } = await photoBench();
  expect((await send(bytes, type)).body.code).toBe(code);
  expect(existsSync(join(folder, 'photos'))).toBe(false);
});

plainTest('a name that is none of ours leads nowhere', async () => {
  const { fetchPhoto } = await photoBench();
  for (const name of ['..%2fstovebench.db', 'riser.jpg']) expect((await fetchPhoto(name)).statusCode).toBe(400);
  expect((await fetchPhoto(`${'0'.repeat(64)}.jpg`)).json().code).toBe('photo/not-found');
});
