import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pictureHeader } from '#calc/picture-header.ts';

// Bytes written by hand after the standards: ITU-T T.81 annex B (JPEG), ISO/IEC 15948 (PNG), RFC 9649
// (WebP; the VP8 frame header is RFC 6386 section 9.1).
const bytes = (...parts: (string | number[])[]) =>
  Uint8Array.from(
    parts.flatMap((part) =>
      typeof part === 'string' ? [...new TextEncoder().encode(part)] : part,
    ),
  );
const frame = [0xff, 0xc0, 0, 11, 8, 0x02, 0x58, 0x03, 0x20, 1, 1, 0x11, 0];
const riff = (kind: string, body: number[]) =>
  bytes('RIFF', [0, 0, 0, 0], 'WEBP', kind, [0, 0, 0, 0], body);

describe('the size of a picture is read off its header', () => {
  test.each<[string, Uint8Array<ArrayBuffer>, unknown]>([
    ['a JPEG', bytes([0xff, 0xd8], frame), { kind: 'jpeg', widthPx: 800, heightPx: 600 }],
    [
      'a JPEG with notes, tables and padding before its frame',
      bytes([0xff, 0xd8, 0xff, 0xe1, 0, 8], 'Exif12', [0xff, 0xc4, 0, 4, 1, 2, 0xff], frame),
      { kind: 'jpeg', widthPx: 800, heightPx: 600 },
    ],
    [
      'a progressive JPEG',
      bytes([0xff, 0xd8], frame.with(1, 0xc2)),
      { kind: 'jpeg', widthPx: 800, heightPx: 600 },
    ],
    [
      'a PNG',
      bytes([0x89], 'PNG', [13, 10, 26, 10, 0, 0, 0, 13], 'IHDR', [0, 0, 0xea, 0x60, 0, 0, 0, 7]),
      { kind: 'png', widthPx: 60_000, heightPx: 7 },
    ],
    [
      'a lossy WebP',
      riff('VP8 ', [0, 0, 0, 0x9d, 0x01, 0x2a, 0x20, 0x03, 0x58, 0x02]),
      { kind: 'webp', widthPx: 800, heightPx: 600 },
    ],
    [
      'a lossless WebP',
      // 14 bits of width - 1 = 799, then 14 bits of height - 1 = 599.
      riff('VP8L', [0x2f, 0x1f, 0xc3, 0x95, 0]),
      { kind: 'webp', widthPx: 800, heightPx: 600 },
    ],
    [
      'an extended WebP',
      riff('VP8X', [0, 0, 0, 0, 0x1f, 0x03, 0, 0x57, 0x02, 0]),
      { kind: 'webp', widthPx: 800, heightPx: 600 },
    ],
  ])('%s', (_, file, header) => {
    expect(pictureHeader(file)).toEqual(header);
  });
});

describe('no picture is seen in', () => {
  test.each<[string, Uint8Array<ArrayBuffer>]>([
    ['nothing', bytes()],
    ['an SVG', bytes('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')],
    ['an SVG that is called a JPEG', bytes('<?xml version="1.0"?><svg/>')],
    ['a GIF', bytes('GIF89a', [1, 0, 1, 0])],
    ['an HEIC', bytes([0, 0, 0, 24], 'ftypheic', [0, 0, 0, 0])],
    ['a web page', bytes('<!doctype html><img src=x>')],
    ['a JPEG that ends before its frame', bytes([0xff, 0xd8, 0xff, 0xe0, 0, 16])],
    ['a JPEG whose segments have no length', bytes([0xff, 0xd8, 0xff, 0xe0, 0, 0])],
    ['a JPEG with a scan and no frame', bytes([0xff, 0xd8, 0xff, 0xda, 0, 2])],
    ['a JPEG of no width', bytes([0xff, 0xd8], frame.with(7, 0).with(8, 0))],
    [
      'a PNG of no height',
      bytes([0x89], 'PNG', [13, 10, 26, 10, 0, 0, 0, 13], 'IHDR', [0, 0, 0, 9, 0, 0, 0, 0]),
    ],
    ['a WebP of another kind', riff('VP9 ', new Array<number>(20).fill(9))],
  ])('%s', (_, file) => {
    expect(pictureHeader(file)).toBeNull();
  });

  test('any bytes without running on or throwing', () => {
    const start = fc.constantFrom([0xff, 0xd8, 0xff], [0x89, 0x50], [0x52, 0x49, 0x46, 0x46], []);
    fc.assert(
      fc.property(start, fc.uint8Array({ maxLength: 200 }), (first, rest) => {
        const header = pictureHeader(Uint8Array.from([...first, ...rest]));
        if (header) expect(Math.min(header.widthPx, header.heightPx)).toBeGreaterThan(0);
      }),
    );
  });
});
