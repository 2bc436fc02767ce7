import { hrefTo } from '#screens/routes.ts';

/** Goes to Pour in place of the table: Back must not lead to a table that is no more. */
export function leaveTable(): void {
  window.location.replace(hrefTo({ at: 'pour' }));
}
