/** What a service should refuse or do without harm: each a request, made as it is sent. */
import { crc32, deflateRawSync } from 'node:zlib';

export interface HardRequest {
  readonly name: string;
  /** Sends it, as many at once as it says. */
  send(address: string): Promise<Response>[];
}

const MB = 1024 ** 2;

const file = (name: string, content: () => Iterable<Uint8Array>): HardRequest => ({
  name,
  send: (address) => [post(`${address}/api/imports?name=file`, 'application/octet-stream', content())],
});

/** @param burnId a burn with a few hours of readings */
export function hardRequests(burnId: string): HardRequest[] {
  // Made before the clock runs.
  const [zip, photo] = [zipOfZeros(1024 * MB), photoOfNotes(12 * MB - 100)];
  return [
    file('300 MB table of zeros', () => repeated(Buffer.from('0,0,0,0\n'.repeat(MB / 8)), 300)),
    file('100 MB table of zeros', () => repeated(Buffer.from('0,0,0,0\n'.repeat(MB / 8)), 100)),
    file('one line of 20 MB', () => repeated(Buffer.alloc(MB, '1'), 20)),
    file('zip that unpacks to 1 GB', () => [zip]),
    file('900 MB record', recordOf900Mb),
    {
      name: '12 MB photo of tiny notes',
      send: (address) => [post(`${address}/api/photos`, 'image/jpeg', [photo])],
    },
    {
      name: 'ten reports at once',
      send: (address) =>
        Array.from({ length: 10 }, () => fetch(`${address}/api/burns/${burnId}/report.pdf`, { method: 'GET' })),
    },
  ];
}

function post(url: string, type: string, content: Iterable<Uint8Array>): Promise<Response> {
  const body = ReadableStream.from(content);
  return fetch(url, { method: 'POST', headers: { 'content-type': type }, body, duplex: 'half' } as RequestInit);
}

function* repeated(piece: Buffer, times: number): Generator<Buffer> {
  for (let time = 0; time < times; time++) yield piece;
}

function* recordOf900Mb(): Generator<Buffer> {
  yield Buffer.from('{"format":"stovebench-burn-record","version":1,"readings":[{"elapsedUs":[0');
  yield* repeated(Buffer.from(',1'.repeat(MB / 2)), 900);
  yield Buffer.from(']}]}');
}

/** A JPEG of nothing but application segments, each with a directory that leads past its end. */
function photoOfNotes(bytes: number): Buffer {
  const exif = Buffer.from('Exif\0\0MM\0*\0\0\0\x08\xff\xff', 'latin1');
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1, 0, exif.length + 2]), exif]);
  const segments = Array.from({ length: Math.floor(bytes / segment.length) }, () => segment);
  return Buffer.concat([Buffer.from([0xff, 0xd8]), ...segments, Buffer.from([0xff, 0xd9])]);
}

/** An archive with one file of zeros, by APPNOTE 6.3.10. */
function zipOfZeros(bytes: number): Buffer {
  const name = Buffer.from('datapackage.json');
  const content = Buffer.alloc(bytes);
  const packed = deflateRawSync(content, { level: 9 });
  const sizes = Buffer.alloc(12);
  sizes.writeUInt32LE(crc32(content), 0);
  sizes.writeUInt32LE(packed.length, 4);
  sizes.writeUInt32LE(bytes, 8);
  const nameLength = Buffer.from([name.length, 0, 0, 0]);
  const common = Buffer.concat([Buffer.from([20, 0, 0, 0, 8, 0, 0, 0, 0, 0]), sizes, nameLength]);
  const local = Buffer.concat([Buffer.from('PK\x03\x04', 'latin1'), common, name, packed]);
  const entry = Buffer.concat([Buffer.from('PK\x01\x02\x14\0', 'latin1'), common, Buffer.alloc(14), name]);
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 'latin1');
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(entry.length, 12);
  end.writeUInt32LE(local.length, 16);
  return Buffer.concat([local, entry, end]);
}
