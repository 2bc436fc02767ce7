import { frozenInjector, frozenMould } from '#calc/line-up.ts';
import { wallZone } from '#calc/moved-shop.ts';
import { potStateAt } from '#calc/pot-course.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { Entry, Said, SaidOf } from '#model/entry.ts';
import { normal, seeded } from '../tests/hands/seeded.ts';
import { trueTempC } from './casting.ts';
import type { EveningPlan, Happening } from './months.ts';
import { pourRound } from './mould-hand.ts';
import { Log, type Pen } from './pen.ts';
import { mixSaid, readPots, readyPots } from './pot-hand.ts';
import { between, pass, type Scene, type ShopNow, say, tableNow } from './scene.ts';
import { type MouldKey, settings } from './shop.ts';
import { truths } from './truths.ts';

const skipShare = 0.02;
const emptyPotsShare = 0.3;
const leftUncheckedShare = 0.3;

/** One session as a person would press it, from the beginning to its end. */
export function pouredEvening(plan: EveningPlan, shop: ShopNow, pen: Pen): Entry[] {
  const log = new Log(pen, plan.startAt);
  const scene: Scene = { plan, shop, log, chance: plan.chance, now: plan.startAt, later: [] };
  begin(scene);
  for (let round = 1; round <= plan.rounds; round += 1) {
    for (const happening of plan.happenings) {
      if (happening.beforeRound === round) happen(scene, happening);
    }
    readyPots(scene, round);
    maySkip(scene, round);
    pourRound(scene);
    pass(scene, between(scene.chance, 55, 80));
  }
  end(scene);
  return log.entries;
}

function begin(scene: Scene): void {
  const { ambientC, pourC } = settings;
  const [first] = scene.plan.colourways;
  const opening: Said[] = [
    { kind: 'session-begun', zone: wallZone, ambientC, pourC },
    lineUpSaid(scene, scene.plan.lineUp),
    ...(first ? [mixSaid(scene, first)] : []),
  ];
  for (const said of opening) say(scene, said);
  pass(scene, between(scene.chance, 150, 280));
}

function lineUpSaid({ plan, shop }: Scene, lineUp: readonly MouldKey[]): SaidOf<'lined-up'> {
  return {
    kind: 'lined-up',
    moulds: lineUp.map((key) => frozenMould(shop.moulds[key], shop.history, Object.values(shop.moulds))),
    injector: frozenInjector(shop.injectors[plan.injector]),
  };
}

function happen(scene: Scene, happening: Happening): void {
  const { moulds } = scene.shop;
  pass(scene, 8);
  switch (happening.does) {
    case 'note':
      say(scene, { kind: 'noted', text: happening.text });
      break;
    case 'read-shop':
      say(scene, { kind: 'ambient-read', ambientC: happening.ambientC });
      break;
    case 'read-moulds':
      readMoulds(scene);
      break;
    case 'read-pots':
      readPots(scene);
      break;
    case 'rest':
      pass(scene, happening.min * 60);
      break;
    case 'add-mould':
      say(scene, lineUpSaid(scene, [...scene.plan.lineUp, happening.mould]));
      break;
    case 'close-cavity': {
      const { mould, cavity, isClosed } = happening;
      say(scene, { kind: 'cavity-closed', mouldId: moulds[mould].id, cavity, isClosed });
      break;
    }
    case 'choose-set-time': {
      const { mould, setSec } = happening;
      const chosen = { mouldId: moulds[mould].id, setSec, hasNoClock: false };
      say(scene, { kind: 'set-time-chosen', ...chosen });
    }
  }
  pass(scene, 4);
}

/** Reads every mould with a thermometer that is good to a degree. */
function readMoulds(scene: Scene): void {
  const table = tableNow(scene);
  for (const seat of table.seats) {
    const tempC = trueTempC(table, seat, scene.now) + normal(scene.chance);
    const mouldId = seat.mould.mouldId;
    say(scene, { kind: 'mould-read', mouldId, tempC: Math.round(tempC * 2) / 2 });
    pass(scene, 7);
  }
}

/** Now and then the last mould of the line sits a round out. */
function maySkip(scene: Scene, round: number): void {
  const { seats } = tableNow(scene);
  const last = seats.at(-1);
  if (round < 5 || seats.length < 2 || !last || scene.chance() >= skipShare) return;
  say(scene, { kind: 'skipped', mouldId: last.mould.mouldId, isSkipped: true });
  pass(scene, 3);
}

/** What is weighed of a pot; one that ran dry tells nothing. A chance of its own leaves all else as it was. */
function leftIn(pot: Pot, at: number): { leftMl?: number } {
  const { potMl, share, sdMl } = truths.loss;
  const inMl = pot.course.reduce((sum, one) => sum + (one.kind === 'filled' ? one.volumeMl : 0), 0);
  const { volumeMl } = potStateAt(pot, settings.pourC, at);
  const lostMl = potMl + share * (inMl - volumeMl) + sdMl * normal(seeded(pot.mixedAt / 1_000));
  const leftMl = Math.round(volumeMl - lostMl);
  return leftMl > 0 ? { leftMl } : {};
}

function end(scene: Scene): void {
  pass(scene, between(scene.chance, 60, 160));
  for (const { logged, says } of scene.later) {
    if (scene.chance() < leftUncheckedShare) continue;
    const right = { target: logged.id, says: says as Said, happenedAt: logged.at };
    say(scene, { kind: 'put-right', ...right });
    pass(scene, between(scene.chance, 10, 25));
  }
  if (scene.chance() < emptyPotsShare) {
    for (const pot of tableNow(scene).potsInUse) {
      say(scene, { kind: 'pot-emptied', potId: pot.id, ...leftIn(pot, scene.now) });
      pass(scene, 5);
    }
  }
  say(scene, { kind: 'session-ended' });
}
