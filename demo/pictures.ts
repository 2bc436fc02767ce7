import { crc32, deflateSync } from 'node:zlib';
import { rgb255FromLab } from '#calc/colour.ts';
import type { Columns } from '#calc/columns.ts';
import { mapped } from '#calc/triple.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import type { FactsOf } from '#store/heads.ts';
import type { Chance } from '../tests/hands/seeded.ts';
import type { Pen } from './pen.ts';
import { baitMm, readingsOf } from './readings.ts';

const widthPx = 160;
const heightPx = 120;
type Rgb = readonly [number, number, number];

const paper: Rgb = [236, 234, 228];
const card: Rgb = [118, 118, 118];

/** What the pictures are drawn from. */
export interface Drawn {
  materials: readonly Material[];
  mixes: readonly Mix[];
  history: readonly Columns[];
}

/**
 * One drawn picture of the bait of every version of a mix, as of the end of the last evening that
 * poured it. They are drawings and say so; the colours that are read off them are what the
 * colourants truly give, and the noise of a camera.
 */
export function drawnPictures(
  { materials, mixes, history }: Drawn,
  pen: Pen,
  chance: Chance,
): DemoShop['pictures'] {
  const due = mixes.flatMap((mix) => {
    const last = lastPourOf(mix, mixes, history);
    return last ? [{ mix, last }] : [];
  });
  due.sort((one, other) => one.last.endedAt - other.last.endedAt);
  const photos: Photo[] = [];
  return due.map(({ mix, last }, minute) => {
    const takenAt = last.endedAt + 600_000 + minute * 60_000;
    const readings = readingsOf({ materials, mixes, photos }, mix, chance);
    const facts: FactsOf<'photos'> = {
      shows: 'bait',
      colourwayId: mix.colourwayId,
      mixId: mix.id,
      materialId: null,
      sessionId: last.sessionId,
      takenAt,
      widthPx,
      heightPx,
      mediaType: 'image/png',
      isDrawn: true,
      rating: null,
      thicknessMm: baitMm,
      readings,
    };
    const photo = pen.head<Photo>(facts, takenAt);
    photos.push(photo);
    const [a = card, b = a] = readings.map(({ lab }) => mapped(rgb255FromLab(lab), Math.round));
    return { photo, png: base64Of(baitPng(a, b)) };
  });
}

/** The last evening that poured this version, before the next one was written. */
function lastPourOf(
  { colourwayId, createdAt }: Mix,
  mixes: readonly Mix[],
  history: readonly Columns[],
): Columns | undefined {
  const next = mixes.find((mix) => mix.colourwayId === colourwayId && mix.createdAt > createdAt);
  return history.findLast(
    ({ startedAt, colourways }) =>
      startedAt > createdAt &&
      startedAt < (next?.createdAt ?? Number.POSITIVE_INFINITY) &&
      colourways.some((one) => one.colourwayId === colourwayId),
  );
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
    // Stored, not packed: how tightly a zlib packs differs by its version, and the shop is the same
    // bytes everywhere.
    ...chunk('IDAT', [...deflateSync(Uint8Array.from(rows), { level: 0 })]),
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

function base64Of(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64');
}
