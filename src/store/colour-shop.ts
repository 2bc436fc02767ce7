import { asHeirs, heirsOf } from '#calc/heirs.ts';
import { loneSide, sidesHeld } from '#calc/poured-sides.ts';
import {
  type ColourShop,
  mixOfPhoto,
  paperBacking,
  plainForecast,
  sideOfPart,
} from '#calc/shop-colours.ts';
import { meetingLine, taughtFor } from '#calc/shop-forecast.ts';
import type { Mix, MixRole, MixSide } from '#model/mix.ts';
import type { Photo, PhotoId, PhotoReading } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { changeHead, headOf, headsOf } from '#store/heads.ts';
import { heldPotsOf } from '#store/held-pots.ts';

/** What `colourShopOf` reads: what a pot held may change while its evening runs, and after it. */
export const colourTables = ['materials', 'mixes', 'photos', 'entries', 'sealed'] as const;

/**
 * All that colour is worked out from. Materials and mixes also when they were taken off. `reading` is
 * a photo that is being read: what its pot held is looked up, too.
 */
export async function colourShopOf(book: Book, reading?: PhotoId): Promise<ColourShop> {
  const [materials, mixes, heads] = await Promise.all([
    book.db.getAll('materials'),
    book.db.getAll('mixes'),
    headsOf(book, 'photos'),
  ]);
  const heirs = heirsOf(mixes);
  const baits = heads.filter(({ shows }) => shows === 'bait');
  const photos = baits.map((photo) => asHeirs(photo, heirs));
  const read = photos.filter(({ id, readings }) => readings.length > 0 || id === reading);
  return { materials, mixes, photos, poured: await pouredOf(book, read, mixes) };
}

/** What really went into the pots that photos' baits were poured from. */
async function pouredOf(
  book: Book,
  photos: readonly Photo[],
  mixes: readonly Mix[],
): Promise<Map<PhotoId, MixSide[]>> {
  const held = await heldPotsOf(book, photos);
  const byId = new Map(mixes.map((mix) => [mix.id, mix]));
  const poured = new Map<PhotoId, MixSide[]>();
  for (const { id, mixId, shotId } of photos) {
    const mix = mixId && byId.get(mixId);
    const pots = held.get(id);
    const sides = mix && pots ? sidesHeld(pots, mix) : null;
    if (!mix || !pots || !sides) continue;
    const lone = loneSide(pots, { shotId }, mix);
    poured.set(id, lone ? aloneAs(sides, lone) : sides);
  }
  return poured;
}

/** Whether a photo of a laminate shows a bait of one side alone, as far as the log tells. */
export async function isOfLoneSide(book: Book, photo: Photo): Promise<boolean> {
  const mix = photo.mixId && (await headOf(book, 'mixes', photo.mixId));
  const pots = (await heldPotsOf(book, [photo])).get(photo.id);
  return mix && pots ? loneSide(pots, photo, mix) !== null : false;
}

/** A bait of one side of a laminate is a bait of one colour. */
function aloneAs(sides: readonly MixSide[], role: MixRole): MixSide[] {
  return sides.flatMap((side) => (side.role === role ? [{ ...side, role: 'only' }] : []));
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
  const whole = await colourShopOf(book, photo.id);
  const before = { ...whole, photos: whole.photos.filter(({ id }) => id !== photo.id) };
  const mix = mixOfPhoto(whole, photo);
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
