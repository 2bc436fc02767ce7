import { hrefTo, type Route, routeOf } from '#screens/routes.ts';

/** What the app knows before it shows anything. */
export interface Footing {
  hasRunning: boolean;
  /** Nothing was ever set up. */
  isEmpty: boolean;
}

/** Where an address leads: a running session takes the place of Pour and of the first screen, the first screen that of Pour in an empty shop. */
export function landing(route: Route, { hasRunning, isEmpty }: Footing): Route {
  if (route.at !== 'pour' && route.at !== 'start') return route;
  if (hasRunning) return { at: 'table' };
  return isEmpty ? { at: 'start' } : route;
}

/** What lies behind a table: the way to it, which would lead there again. */
const wayIn = /^(pour|table|start|cautions|line-up)$/;

/** Where Back leads from the table of a running session: to the desk, never round to the table. */
export function behindTable(hash: string): string {
  return wayIn.test(routeOf(hash).at) ? hrefTo({ at: 'moulds' }) : hash;
}
