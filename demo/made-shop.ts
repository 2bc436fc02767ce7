import { columnsOf } from '#calc/columns.ts';
import { tableOf } from '#calc/table.ts';
import type { Change } from '#model/change.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Entry } from '#model/entry.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import type { Settings } from '#model/settings.ts';
import type { FactsOf } from '#store/heads.ts';
import { ladder } from '#store/ladder.ts';
import { seeded } from '../tests/hands/seeded.ts';
import { pouredEvening } from './evening.ts';
import { mixesFor } from './mixes.ts';
import { type EveningPlan, plannedMonths } from './months.ts';
import { Pen } from './pen.ts';
import { drawnPictures } from './pictures.ts';
import { stockedMaterials, stockJournal } from './purchases.ts';
import { mouldKeyOf, type ShopNow } from './scene.ts';
import {
  type ColourKey,
  colourways,
  type InjectorKey,
  injectors,
  type MouldKey,
  moulds,
  settings,
  takes,
} from './shop.ts';
import { truths } from './truths.ts';

/** The seed of the shop that is served with the app. */
export const shopSeed = 22;

/** The made-up shop that belongs to a seed, in memory. The same seed gives the same shop. */
export function madeShop(seed: number = shopSeed): DemoShop {
  const plans = plannedMonths(seed);
  const pen = new Pen();
  const setUpAt = (plans[0]?.startAt ?? 0) - 2 * 86_400_000;
  const facts = { ...settings, cautionsReadAt: setUpAt };
  const likes = { ...pen.head<Settings>(facts, setUpAt), id: 'settings' } as const;
  const shop = setUp(pen, setUpAt);
  const sessions: SealedSession[] = [];
  const changes: Change[] = [];
  for (const [evening, plan] of plans.entries()) {
    shop.mixes.push(...mixesFor(evening, shop, pen, plan.startAt - 3_600_000));
    changes.push(...loggedChanges(plan, shop, pen));
    const session = sealedOf(pouredEvening(plan, shop, pen));
    sessions.push(session);
    shop.history.push(columnsOf(session.id, session.entries));
    putAway(shop, session.entries, pen);
  }
  const stocked = stockedMaterials(pen.device, setUpAt);
  const stock = Object.values(stocked);
  const drawn = { materials: stock, mixes: shop.mixes, history: shop.history };
  return {
    made: 'demo',
    version: ladder.length,
    moulds: Object.values(shop.moulds),
    injectors: Object.values(shop.injectors),
    colourways: Object.values(shop.colourways),
    mixes: shop.mixes,
    changes,
    materials: stock,
    movements: stockJournal(stocked, shop.history, pen.device),
    settings: likes,
    pictures: drawnPictures(drawn, pen, seeded(seed)),
    sessions,
  };
}

/** The same as the text that is packed and served. */
export function demoText(seed: number = shopSeed): string {
  return JSON.stringify(madeShop(seed));
}

/** The heads of the shop, all added on one day. */
function setUp(pen: Pen, at: Instant): ShopNow {
  const moulds = pen.heads<Mould, MouldKey>(factsOfMoulds(), at);
  const { body, part, each } = takes;
  return {
    moulds: {
      ...moulds,
      [body]: { ...moulds[body], needs: [{ mouldId: moulds[part].id, each }] },
    },
    injectors: pen.heads<Injector, InjectorKey>(injectors, at),
    colourways: pen.heads<Colourway, ColourKey>(colourways, at),
    mixes: [],
    history: [],
  };
}

/** What was done to a mould before an evening, as the person logs it at its page. */
function loggedChanges(plan: EveningPlan, shop: ShopNow, pen: Pen): Change[] {
  const { mould, cavity, note } = truths.vent;
  const isVentEvening = plan.happenings.some(
    (happening) => happening.does === 'note' && happening.text === note,
  );
  if (!isVentEvening) return [];
  const facts: FactsOf<'changes'> = {
    mouldId: shop.moulds[mould].id,
    at: plan.startAt,
    kind: 'vent-opened',
    cavities: [cavity],
    defect: 'short',
    wasPickedAsWorst: true,
    text: '',
  };
  return [pen.head<Change>(facts, plan.startAt)];
}

function factsOfMoulds(): Record<MouldKey, object> {
  const facts = Object.entries(moulds).map(([key, mould]) => [key, mould.facts]);
  return Object.fromEntries(facts);
}

function sealedOf(entries: readonly Entry[]): SealedSession {
  const { sessionId, begunAt, endedAt, lastAt, zone } = tableOf(entries);
  if (!sessionId) throw new Error('An evening without a press cannot be.');
  return {
    id: sessionId,
    startedAt: begunAt,
    endedAt: endedAt ?? lastAt,
    zone,
    entries: [...entries],
  };
}

/** What was closed or chosen at the table moves into the moulds, as when the app ends a session. */
function putAway(shop: ShopNow, entries: readonly Entry[], pen: Pen): void {
  const table = tableOf(entries);
  for (const { mould } of table.allSeats) {
    const key = mouldKeyOf(shop, mould.mouldId);
    const { closed, setSec, hasNoClock } = mould;
    const changes = { closed: [...closed], setSec, hasNoClock };
    shop.moulds[key] = pen.changed<Mould>(shop.moulds[key], changes, table.lastAt);
  }
}
