import { opensAt, type Seat, type Stage, stageAt, type Table, waitingShot } from '#calc/table.ts';
import type { ShotId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { saveWords } from '#screens/table/save-words.ts';
import { clockWords } from '#screens/words.ts';

/** One mould at one instant, as far as a screen reader tells of it. */
export interface Sight {
  mouldId: MouldId;
  name: string;
  stage: Stage;
  shotId: ShotId | null;
  /** Whole seconds until it opens; null: no clock runs. */
  leftSec: number | null;
  /** The newest logged shot and what came of it. */
  loggedId: ShotId | null;
  gave: string;
}

/** A countdown is told when it falls to one of these, s; how often it is looked at does not matter. */
const toldSec = [60, 10];

/** The moulds of the table now. */
export function sightsAt(table: Table, now: Instant): Sight[] {
  return table.seats.map((seat) => sightOf(seat, now));
}

function sightOf(seat: Seat, now: Instant): Sight {
  const shot = waitingShot(seat);
  const stage = stageAt(seat, now);
  const logged = seat.shots.findLast(({ loggedAt }) => loggedAt !== null);
  return {
    mouldId: seat.mould.mouldId,
    name: seat.mould.name,
    stage,
    shotId: shot?.id ?? null,
    leftSec: shot && stage === 'setting' ? Math.ceil((opensAt(shot) - now) / 1_000) : null,
    loggedId: logged?.id ?? null,
    gave: logged ? saveWords(logged.results) : '',
  };
}

/** What has changed from one look to the next, a short sentence for each mould. */
export function changesBetween(before: readonly Sight[], after: readonly Sight[]): string[] {
  const gone = before.filter((one) => !after.some(({ mouldId }) => mouldId === one.mouldId));
  return [
    ...gone.map(({ name }) => `${name} off the table`),
    ...after.flatMap((now) => {
      const was = before.find(({ mouldId }) => mouldId === now.mouldId);
      const words = was ? changeOf(was, now) : 'on the table';
      return words ? [`${now.name} ${words}`] : [];
    }),
  ];
}

function changeOf(was: Sight, now: Sight): string | null {
  const isLogged = now.loggedId !== was.loggedId && now.loggedId === was.shotId;
  if (isLogged && now.shotId === null) return now.gave;
  if (now.stage !== was.stage || now.shotId !== was.shotId) return stageWords(now);
  const [left, before] = [now.leftSec, was.leftSec];
  if (left === null || before === null) return null;
  const fallen = toldSec.findLast((sec) => before > sec && left <= sec);
  return fallen === undefined ? null : `${clockWords(left)} left`;
}

function stageWords({ stage, leftSec }: Sight): string {
  switch (stage) {
    case 'setting':
      return leftSec === null ? 'setting' : `setting, ${clockWords(leftSec)}`;
    case 'open':
      return 'open';
    case 'skipped':
      return 'sits out';
    default:
      return 'ready to fill';
  }
}
