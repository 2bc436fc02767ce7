import { crc32, deflateSync } from 'node:zlib';
import type { Columns } from '#calc/columns.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Colourway } from '#model/gear.ts';
import type { Photo } from '#model/photo.ts';
import type { FactsOf } from '#store/heads.ts';
import type { Pen } from './pen.ts';

const widthPx = 160;
const heightPx = 120;
type Rgb = readonly [number, number, number];

const paper: Rgb = [236, 234, 228];
const card: Rgb = [118, 118, 118];

/**
 * One drawn picture of each colourway's bait, as of the end of the last evening that poured it. They
 * are drawings and say so; they are not read, so that nothing is learnt from them.
 */
export function drawnPictures(
  colourways: readonly Colourway[],
  history: readonly Columns[],
  pen: Pen,
): DemoShop['pictures'] {
  return colourways.flatMap(({ id, sides }) => {
    const last = history.findLast((session) =>
      session.colourways.some(({ colourwayId }) => colourwayId === id),
    );
    if (!last) return [];
    const takenAt = last.endedAt + 600_000;
    const facts: FactsOf<'photos'> = {
      shows: 'bait',
      colourwayId: id,
      mixId: null,
      materialId: null,
      sessionId: last.sessionId,
      takenAt,
      widthPx,
      heightPx,
      mediaType: 'image/png',
      isDrawn: true,
      rating: null,
      thicknessMm: null,
      readings: [],
    };
    const [a, b = a] = sides.map(({ swatch }) => rgbOf(swatch));
    return [
      { photo: pen.head<Photo>(facts, takenAt), png: base64Of(baitPng(a ?? card, b ?? card)) },
    ];
  });
}

/** A bait of two halves on paper beside a grey card, as PNG (ISO/IEC 15948: 8-bit RGB, filter 0). */
function baitPng(a: Rgb, b: Rgb): Uint8Array {
  const rows: number[] = [];
  for (let y = 0; y < heightPx; y += 1) {
    rows.push(0);
    for (let x = 0; x < widthPx; x += 1) rows.push(...pointOf(x, y, a, b));
  }
  const size = [...u32(widthPx), ...u32(heightPx), 8, 2, 0, 0, 0];
  return Uint8Array.from([
    ...[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    ...chunk('IHDR', size),
    ...chunk('IDAT', [...deflateSync(Uint8Array.from(rows), { level: 9 })]),
    ...chunk('IEND', []),
  ]);
}

/** A body with a tail that grows thin; side A above, side B below. */
function pointOf(x: number, y: number, a: Rgb, b: Rgb): Rgb {
  if (x < 44 && y > 92) return card;
  const along = (x - 16) / 128;
  if (along < 0 || along > 1) return paper;
  const half = 26 * Math.sqrt(Math.max(along * (1 - along), 0)) * (1.7 - along) + 3;
  if (Math.abs(y - 54) > half) return paper;
  return y < 54 ? a : b;
}

function chunk(name: string, body: readonly number[]): number[] {
  const named = [...new TextEncoder().encode(name), ...body];
  return [...u32(body.length), ...named, ...u32(crc32(Uint8Array.from(named)))];
}

function u32(value: number): number[] {
  return [24, 16, 8, 0].map((by) => (value >>> by) & 0xff);
}

function rgbOf(swatch: string): Rgb {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) =>
    Number.parseInt(swatch.slice(at, at + 2), 16),
  );
  return [r, g, b];
}

function base64Of(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64');
}
