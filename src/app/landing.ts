import type { Route } from '#screens/routes.ts';

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
