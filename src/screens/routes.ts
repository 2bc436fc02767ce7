import type { SessionId } from '#model/entry.ts';
import type { ColourwayId, InjectorId } from '#model/gear.ts';
import type { MaterialId } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { MouldId } from '#model/mould.ts';
import type { PhotoId } from '#model/photo.ts';

/** Every address of the app. */
export type Route =
  | { at: 'pour' }
  | { at: 'table' }
  | { at: 'start' }
  | { at: 'cautions' }
  /** `like`: what that session was poured with is chosen already. */
  | { at: 'line-up'; like?: SessionId }
  | { at: 'day'; day: string }
  | { at: 'session'; sessionId: SessionId }
  | { at: 'moulds' }
  | { at: 'yields' }
  | { at: 'mould'; mouldId: MouldId }
  | { at: 'mould-facts'; mouldId: MouldId | null }
  | { at: 'colours' }
  | { at: 'colour'; colourwayId: ColourwayId }
  | { at: 'colour-facts'; colourwayId: ColourwayId | null }
  | { at: 'photos'; colourwayId: ColourwayId }
  | { at: 'photo'; photoId: PhotoId }
  | { at: 'find-photo' }
  | { at: 'card'; materialId: MaterialId }
  | { at: 'shelf' }
  | { at: 'material'; materialId: MaterialId }
  | { at: 'material-facts'; materialId: MaterialId | null }
  | { at: 'bait-cost' }
  | { at: 'mix-facts'; colourwayId: ColourwayId }
  | { at: 'nameless'; mixId: MixId }
  | { at: 'drops'; mixId: MixId; volumeMl: number }
  | { at: 'share-mix'; mixId: MixId }
  /** A mix in the address itself; none: one is taken from a file or a link. */
  | { at: 'take-mix'; packed: string | null }
  | { at: 'ideas' }
  | { at: 'workshop' }
  | { at: 'glove-check' }
  | { at: 'sound-check' }
  | { at: 'pedal-check' }
  | { at: 'keep' }
  | { at: 'open-copy' }
  | { at: 'tables' }
  | { at: 'injector-facts'; injectorId: InjectorId | null };

/** Addresses of one record each, and the field that holds its id. */
const oneRecord: Readonly<Record<string, string>> = {
  session: 'sessionId',
  mould: 'mouldId',
  'mould-facts': 'mouldId',
  colour: 'colourwayId',
  'colour-facts': 'colourwayId',
  'mix-facts': 'colourwayId',
  photos: 'colourwayId',
  photo: 'photoId',
  card: 'materialId',
  material: 'materialId',
  'material-facts': 'materialId',
  nameless: 'mixId',
  'share-mix': 'mixId',
  'injector-facts': 'injectorId',
};
/** Where `new` in place of an id begins a record. */
const begins = /^(mould|colour|material|injector)-facts$/;
/** Addresses that say everything by themselves. */
const plain = new Set(
  (
    'pour table start cautions moulds yields colours shelf bait-cost ideas find-photo workshop ' +
    'glove-check sound-check pedal-check keep open-copy tables'
  ).split(' '),
);

/** The hash that leads to a route. */
export function hrefTo(route: Route): string {
  const field = oneRecord[route.at];
  if (field) return `#/${route.at}/${Reflect.get(route, field) ?? 'new'}`;
  switch (route.at) {
    case 'day':
      return `#/day/${route.day}`;
    case 'line-up':
      return route.like ? `#/line-up/${route.like}` : '#/line-up';
    case 'drops':
      return `#/drops/${route.mixId}/${route.volumeMl}`;
    case 'take-mix':
      return `#/take-mix/${route.packed ?? ''}`;
    default:
      return `#/${route.at}`;
  }
}

/** The form of every id: a UUID of version 7. */
const idForm = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/** The route that a hash leads to; anything unknown leads to Pour. */
export function routeOf(hash: string): Route {
  const [at = '', id = '', more = ''] = hash.replace(/^#\/?/, '').split('/');
  // A hash holds texts; what they name is known by their form and their place alone.
  const to = (route: object) => ({ at, ...route }) as Route;
  if (plain.has(at)) return to({});
  const isId = idForm.test(id);
  if (Object.hasOwn(oneRecord, at)) {
    const field = oneRecord[at] ?? '';
    if (isId) return to({ [field]: id });
    if (id === 'new' && begins.test(at)) return to({ [field]: null });
  }
  if (at === 'line-up' && (isId || id === '')) return to(isId ? { like: id } : {});
  if (at === 'day' && /^\d{4}-\d{2}-\d{2}$/.test(id)) return to({ day: id });
  if (at === 'take-mix') return to({ packed: id || null });
  if (at === 'drops') {
    const isVolume = /^\d{1,5}(\.\d{1,20})?$/.test(more) && Number(more) > 0;
    if (!isVolume) return { at: 'colours' };
    if (isId) return to({ mixId: id, volumeMl: Number(more) });
  }
  return { at: 'pour' };
}
