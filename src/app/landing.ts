import type { Route } from '#screens/routes.ts';

/** What the app knows before it shows anything. */
export interface Footing {
  hasRunning: boolean;
  /** Nothing was ever set up. */
  isEmpty: boolean;
}

/** Where an address leads: a running session takes the place of Pour, the first screen that of an empty shop. */
export function landing(route: Route, { hasRunning, isEmpty }: Footing): Route {
  if (route.at === 'pour' && hasRunning) return { at: 'table' };
  if (route.at === 'pour' && isEmpty) return { at: 'start' };
  return route;
}
