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

/** The hash that leads to a route. */
export function hrefTo(route: Route): string {
  switch (route.at) {
    case 'day':
      return `#/day/${route.day}`;
    case 'line-up':
      return route.like ? `#/line-up/${route.like}` : '#/line-up';
    case 'session':
      return `#/session/${route.sessionId}`;
    case 'mould':
      return `#/mould/${route.mouldId}`;
    case 'mould-facts':
      return `#/mould-facts/${route.mouldId ?? 'new'}`;
    case 'colour':
    case 'mix-facts':
      return `#/${route.at}/${route.colourwayId}`;
    case 'nameless':
    case 'share-mix':
      return `#/${route.at}/${route.mixId}`;
    case 'drops':
      return `#/drops/${route.mixId}/${route.volumeMl}`;
    case 'take-mix':
      return `#/take-mix/${route.packed ?? ''}`;
    case 'colour-facts':
      return `#/colour-facts/${route.colourwayId ?? 'new'}`;
    case 'photos':
      return `#/photos/${route.colourwayId}`;
    case 'photo':
      return `#/photo/${route.photoId}`;
    case 'card':
      return `#/card/${route.materialId}`;
    case 'material':
      return `#/material/${route.materialId}`;
    case 'material-facts':
      return `#/material-facts/${route.materialId ?? 'new'}`;
    case 'injector-facts':
      return `#/injector-facts/${route.injectorId ?? 'new'}`;
    default:
      return `#/${route.at}`;
  }
}

/** The route that a hash leads to; anything unknown leads to Pour. */
export function routeOf(hash: string): Route {
  const [at = '', id = '', more = ''] = hash.replace(/^#\/?/, '').split('/');
  switch (at) {
    case 'table':
    case 'start':
    case 'cautions':
    case 'moulds':
    case 'yields':
    case 'colours':
    case 'shelf':
    case 'bait-cost':
    case 'ideas':
    case 'find-photo':
    case 'workshop':
    case 'glove-check':
    case 'sound-check':
    case 'pedal-check':
    case 'keep':
    case 'open-copy':
    case 'tables':
      return { at };
    case 'line-up':
      return id === '' ? { at } : withId<SessionId>(id, (like) => ({ at, like }));
    case 'day':
      return /^\d{4}-\d{2}-\d{2}$/.test(id) ? { at, day: id } : { at: 'pour' };
    case 'session':
      return withId<SessionId>(id, (sessionId) => ({ at, sessionId }));
    case 'mould':
      return withId<MouldId>(id, (mouldId) => ({ at, mouldId }));
    case 'mould-facts':
      return id === 'new'
        ? { at, mouldId: null }
        : withId<MouldId>(id, (mouldId) => ({ at, mouldId }));
    case 'colour':
    case 'mix-facts':
      return withId<ColourwayId>(id, (colourwayId) => ({ at, colourwayId }));
    case 'nameless':
    case 'share-mix':
      return withId<MixId>(id, (mixId) => ({ at, mixId }));
    case 'drops':
      return /^\d{1,5}(\.\d{1,20})?$/.test(more) && Number(more) > 0
        ? withId<MixId>(id, (mixId) => ({ at, mixId, volumeMl: Number(more) }))
        : { at: 'colours' };
    case 'take-mix':
      return { at, packed: id || null };
    case 'colour-facts':
      return id === 'new'
        ? { at, colourwayId: null }
        : withId<ColourwayId>(id, (colourwayId) => ({ at, colourwayId }));
    case 'photos':
      return withId<ColourwayId>(id, (colourwayId) => ({ at, colourwayId }));
    case 'photo':
      return withId<PhotoId>(id, (photoId) => ({ at, photoId }));
    case 'card':
      return withId<MaterialId>(id, (materialId) => ({ at, materialId }));
    case 'material':
      return withId<MaterialId>(id, (materialId) => ({ at, materialId }));
    case 'material-facts':
      return id === 'new'
        ? { at, materialId: null }
        : withId<MaterialId>(id, (materialId) => ({ at, materialId }));
    case 'injector-facts':
      return id === 'new'
        ? { at, injectorId: null }
        : withId<InjectorId>(id, (injectorId) => ({ at, injectorId }));
    default:
      return { at: 'pour' };
  }
}

/** The form of every id: a UUID of version 7. */
const idForm = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

function withId<Id extends string>(id: string, route: (id: Id) => Route): Route {
  return idForm.test(id) ? route(id as Id) : { at: 'pour' };
}
