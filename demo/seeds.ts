import {
  changedByVent,
  coldByMould,
  colourDifferences,
  dentingEarly,
  injectorDifferences,
  standingOut,
} from './claims.ts';
import { shotsOf, ventSession } from './figures.ts';
import { madeShop } from './made-shop.ts';

/** What the product's figures say of the shop of one seed, in one line: for whoever looks for a new seed. */
export function seedLine(seed: number): string {
  const shop = madeShop(seed);
  const shots = shotsOf(shop);
  const days =
    (shop.sessions[ventSession(shop)]?.startedAt ?? 0) - (shop.sessions[0]?.startedAt ?? 0);
  const cold = [...coldByMould(shop)].map(([mould, said]) =>
    said.kind === 'needs' ? `${mould} ${said.shots}` : `${mould} ${said.kind}`,
  );
  const parts = {
    shots: [String(shots.length)],
    'vent on day': [(days / 86_400_000).toFixed(1)],
    'stand out': standingOut(shots),
    changed: changedByVent(shots),
    cold,
    'dent early': dentingEarly(shots),
    'colours differ': colourDifferences(shots),
    injector: injectorDifferences(shots),
  };
  const words = Object.entries(parts).map(([what, found]) => `${what}: ${found.join(', ') || '-'}`);
  return `seed ${seed} | ${words.join(' | ')}`;
}
