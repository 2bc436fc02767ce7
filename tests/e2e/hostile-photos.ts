import { crc32, deflateSync } from 'node:zlib';

/** What a file field may be given that is no good photo, and what has to become of it. */
export interface GivenPhoto {
  what: string;
  file: { name: string; mimeType: string; buffer: Buffer };
  /** The start of the sentence it is refused with; null: it is kept, made small. */
  refused: RegExp | null;
}

/**
 * Files that a camera, a download or a hand of no good will may give. `good` is a whole JPEG.
 * HEIC: ISO/IEC 23008-12, a `ftyp` box of brand `heic`; this browser cannot decode it.
 */
export function hostilePhotos(good: Buffer): GivenPhoto[] {
  const heic = Buffer.concat([
    Buffer.from([0, 0, 0, 24]),
    Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1'),
    Buffer.alloc(50_000, 0x5a),
  ]);
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>';
  return [
    given('a HEIC', heic, /^This is no photo/, 'bait.heic', 'image/heic'),
    given('a HEIC called a JPEG', heic, /^This is no photo/),
    given('a text called a JPEG', Buffer.from('Not a picture. '.repeat(900)), /^This is no photo/),
    given('an SVG called a JPEG', Buffer.from(svg), /^This is no photo/),
    given('an empty file', Buffer.alloc(0), /^This is no photo/),
    given('a JPEG cut in its head', good.subarray(0, 60), /^This is no photo/),
    given('a JPEG cut in its picture', good.subarray(0, 700), /^This picture does not open/),
    given('a PNG of 3,600 MP', png(60_000, 60_000, 1), /^This picture is too large/),
    given('a PNG of 51 MP', png(8_500, 6_000, 1), /^This picture is too large/),
    given('a PNG cut after its head', png(600, 600, 1), /^This picture does not open/),
    given('a PNG of 50 MP', png(8_300, 6_020, 6_020), null),
  ];
}

function given(
  what: string,
  buffer: Buffer,
  refused: RegExp | null,
  name = 'bait.jpg',
  mimeType = 'image/jpeg',
): GivenPhoto {
  return { what, file: { name, mimeType, buffer }, refused };
}

/** A grey PNG with the first `rows` of its rows (ISO/IEC 15948: 8 bits of grey, no filter). */
function png(widthPx: number, heightPx: number, rows: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(widthPx, 0);
  head.writeUInt32BE(heightPx, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const row = Buffer.from(Array.from({ length: widthPx + 1 }, (_, at) => (at ? at & 0xff : 0)));
  const points = Buffer.concat(Array.from({ length: rows }, () => row));
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(points, { level: 1 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, body: Buffer): Buffer {
  const said = Buffer.concat([Buffer.from(type, 'latin1'), body]);
  const whole = Buffer.alloc(8 + said.length);
  whole.writeUInt32BE(body.length, 0);
  whole.set(said, 4);
  whole.writeUInt32BE(crc32(said), 4 + said.length);
  return whole;
}
