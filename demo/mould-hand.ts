import { cavityCount } from '#calc/cavity-layout.ts';
import { shotMl } from '#calc/mould-size.ts';
import { setClockAt } from '#calc/set-clock.ts';
import type { Seat, Shot, Table } from '#calc/table.ts';
import type { Result, ShotId } from '#model/entry.ts';
import { normal } from '../tests/hands/seeded.ts';
import { castResults, coldnessOf, trueTempC } from './casting.ts';
import { between, mouldKeyOf, msOf, pass, type Scene, say, tableNow } from './scene.ts';
import { moulds } from './shop.ts';
import { truths, usual } from './truths.ts';

/** A filled mould on its way to be opened. */
interface Waiting {
  shot: Shot;
  /** How long it is kept shut. */
  openSec: number;
  /** Opened by hand while the clock ran. */
  isStopped: boolean;
  gave: readonly Result[];
}

/** A mould that was filled in this round, and the table just before. */
interface Filled {
  before: Table;
  seat: Seat;
  shot: Shot;
  /** The round is opened well before its time. */
  isEarly: boolean;
}

const checkLaterShare = 0.03;
const mispressShare = 0.03;
/** Moulds that open within this time of each other are logged in one go. */
const oneGoMs = 20_000;

/** One round: filled from one load, opened mould by mould, logged. Time passes. */
export function pourRound(scene: Scene): void {
  const before = tableNow(scene);
  fill(scene, before);
  const table = tableNow(scene);
  const isEarly = scene.chance() < usual.earlyRounds;
  const waiting = table.seats
    .flatMap((seat) => {
      const shot = seat.shots.at(-1);
      return shot && shot.loggedAt === null
        ? [waitingFor(scene, { before, seat, shot, isEarly })]
        : [];
    })
    .sort((a, b) => a.openSec - b.openSec);
  let open: Waiting[] = [];
  for (const [index, mould] of waiting.entries()) {
    scene.now = Math.max(scene.now, mould.shot.filledAt + msOf(mould.openSec));
    if (mould.isStopped) say(scene, { kind: 'clock-stopped', shotId: mould.shot.id });
    pass(scene, 3);
    open.push(mould);
    const next = waiting[index + 1];
    if (next && next.shot.filledAt + msOf(next.openSec) - scene.now < oneGoMs) continue;
    log(scene, open);
    open = [];
  }
}

function fill(scene: Scene, table: Table): void {
  const shots = table.seats
    .filter(({ isSkipped }) => !isSkipped)
    .map((seat) => {
      const volumeMl = shotMl(seat.mould);
      return {
        shotId: scene.log.pen.freshId<ShotId>(scene.now),
        mouldId: seat.mould.mouldId,
        volumeMl,
        closed: [...seat.mould.closed],
        setSec: setClockAt(table, seat, volumeMl, scene.now).setSec,
      };
    });
  const potIds = table.potsInUse.map(({ id }) => id);
  say(scene, { kind: 'filled', shots, potIds, injectorId: table.injector?.injectorId ?? null });
}

function waitingFor(scene: Scene, filled: Filled): Waiting {
  const { before, seat, shot, isEarly } = filled;
  const { chance, plan, shop } = scene;
  const key = mouldKeyOf(shop, seat.mould.mouldId);
  const { usualSec } = moulds[key];
  const wantedSec = isEarly
    ? usualSec * between(chance, usual.earlyFrom, usual.earlyTo)
    : usualSec + 4 + Math.abs(normal(chance)) * 6;
  const clockSec = shot.setSec ?? 0;
  const isStopped = wantedSec < clockSec - 4;
  const empty = before.allSeats.find(({ mould }) => mould.mouldId === shot.mouldId) ?? seat;
  const aboveK = trueTempC(before, empty, shot.filledAt) - before.ambientC;
  const gave = castResults(chance, {
    cavities: cavityCount(seat.mould.layout),
    closed: seat.mould.closed,
    coldness: coldnessOf(seat.mould.material, aboveK),
    isWorseInjector: plan.injector === truths.injector.worse,
    isDenting: isEarly && shot.colourwayId === shop.colourways[truths.early.colourway].id,
    choked: key === truths.vent.mould && !plan.isVentOpen ? truths.vent.cavity : null,
  });
  return {
    shot,
    openSec: isStopped ? wantedSec : Math.max(wantedSec, clockSec),
    isStopped,
    gave,
  };
}

/** Logs moulds that lie open: the bad ones one by one, the rest with one press. */
function log(scene: Scene, open: readonly Waiting[]): void {
  const { chance } = scene;
  if (chance() < checkLaterShare) {
    logForLater(scene, open);
    return;
  }
  const bad = open.filter(({ gave }) => !isAllGood(gave));
  if (bad.length > 0 && chance() < mispressShare) {
    const slip = say(scene, openedSaid(open, allAs('good')));
    pass(scene, 4);
    say(scene, { kind: 'taken-back', target: slip.id });
  }
  for (const mould of bad) {
    pass(scene, between(chance, 5, 8) + mould.gave.filter((result) => result !== 'good').length);
    say(scene, openedSaid([mould], asGiven));
  }
  const good = open.filter(({ gave }) => isAllGood(gave));
  if (good.length === 0) return;
  pass(scene, between(chance, 2, 4));
  say(scene, openedSaid(good, asGiven));
}

function logForLater(scene: Scene, open: readonly Waiting[]): void {
  pass(scene, 3);
  const logged = say(scene, openedSaid(open, allAs('not-checked')));
  scene.later.push({ logged, says: openedSaid(open, asGiven) });
}

function openedSaid(open: readonly Waiting[], resultsOf: (mould: Waiting) => Result[]) {
  const shots = open.map((mould) => ({ shotId: mould.shot.id, results: resultsOf(mould) }));
  return { kind: 'opened', shots } as const;
}

function asGiven({ gave }: Waiting): Result[] {
  return [...gave];
}

/** The same for every cavity that works. */
function allAs(result: 'good' | 'not-checked'): (mould: Waiting) => Result[] {
  return ({ gave }) => gave.map((own) => (own === 'closed' ? own : result));
}

function isAllGood(gave: readonly Result[]): boolean {
  return gave.every((result) => result === 'good' || result === 'closed');
}
