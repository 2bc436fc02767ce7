import { type ColourShop, paperBacking, plainForecast, sideOfPart } from '#calc/shop-colours.ts';
import { meetingLine, taughtFor } from '#calc/shop-forecast.ts';
import type { Mix } from '#model/mix.ts';
import type { Photo, PhotoReading } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { changeHead, headsOf } from '#store/heads.ts';

/** All that colour is worked out from. Materials and mixes also when they were taken off. */
export async function colourShopOf(book: Book): Promise<ColourShop> {
  const [materials, mixes, photos] = await Promise.all([
    book.db.getAll('materials'),
    book.db.getAll('mixes'),
    headsOf(book, 'photos'),
  ]);
  return { materials, mixes, photos: photos.filter(({ shows }) => shows === 'bait') };
}

/** What was read off a photo, before the forecast of the day stands beside it. */
export type ReadParts = readonly Pick<PhotoReading, 'part' | 'lab' | 'fault'>[];

/**
 * Keeps what was read off a bait's photo, each spot with what was forecast for it before this photo
 * was known: that is how a shop knows how far off its forecasts are.
 */
export async function keepReadings(
  book: Book,
  photo: Photo,
  { thicknessMm, read }: { thicknessMm: number; read: ReadParts },
  at: Instant,
): Promise<void> {
  const whole = await colourShopOf(book);
  const before = { ...whole, photos: whole.photos.filter(({ id }) => id !== photo.id) };
  const mix = whole.mixes.find(({ id }) => id === photo.mixId);
  const readings = read.map((one) => ({
    ...one,
    forecast: mix ? forecastOfPart(before, mix, one.part, thicknessMm) : null,
  }));
  await changeHead(book, 'photos', photo.id, { readings, thicknessMm }, at);
}

function forecastOfPart(
  shop: ColourShop,
  mix: Mix,
  part: PhotoReading['part'],
  thicknessMm: number,
): PhotoReading['forecast'] {
  const body = { thicknessMm, backing: paperBacking };
  const side = sideOfPart(mix, part);
  if (side) {
    const { strengths } = taughtFor(shop, side.plastisolId);
    return plainForecast(shop, mix, side, body, strengths);
  }
  if (part !== 'line') return null;
  const sides = mix.sides.map((one) => ({
    side: one,
    taught: { strengths: taughtFor(shop, one.plastisolId).strengths, history: [] },
  }));
  // Where they meet is half of each.
  return meetingLine(shop, mix, sides, body)[2] ?? null;
}
