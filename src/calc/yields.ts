import {
  type Columns,
  closedCode,
  coldFlag,
  goodCode,
  notCheckedCode,
  resultCodes,
} from '#calc/columns.ts';
import type { Defect } from '#model/defect.ts';
import type { MouldId } from '#model/mould.ts';

/** Counts of cavities; `checked` is good and bad together, the rest is beside it. */
export interface Tally {
  shots: number;
  good: number;
  checked: number;
  notChecked: number;
  coldShots: number;
  coldGood: number;
  coldChecked: number;
}

/** One shot as the yield looks at it. */
export interface ShotCount {
  /** Counted per session and mould, from 1. */
  number: number;
  good: number;
  checked: number;
  notChecked: number;
  isCold: boolean;
}

/** The counts of one mould over some sessions. */
export interface MouldYield {
  mouldId: MouldId;
  /** As it was called last. */
  name: string;
  cavities: number;
  tally: Tally;
  /** Per session, oldest first: its shots in the order of filling. */
  sessions: { startedAt: number; shots: ShotCount[] }[];
  /** Per cavity: looked at and bad, of the shots that were counted. */
  byCavity: { checked: number; bad: number }[];
  byDefect: Map<Defect, number>;
}

/** Which shots are counted. */
export type Which = 'all' | 'warm' | 'cold';

/** The counts of every mould in some digests, in the order of their first shot. */
export function yieldsByMould(columns: readonly Columns[], which: Which = 'all'): MouldYield[] {
  const yields = new Map<MouldId, MouldYield>();
  for (const session of columns) {
    session.moulds.forEach((mould, index) => {
      const own = yields.get(mould.mouldId) ?? emptyYield(mould);
      own.name = mould.name;
      growTo(own, mould.cavities);
      const shots = countShots(session, index, which, own);
      if (shots.length === 0) return;
      own.sessions.push({ startedAt: session.startedAt, shots });
      yields.set(mould.mouldId, own);
    });
  }
  return [...yields.values()];
}

/** The counts of all moulds together. */
export function totalOf(yields: readonly MouldYield[]): Tally {
  const total = emptyTally();
  for (const { tally } of yields) {
    for (const key of Object.keys(total) as (keyof Tally)[]) total[key] += tally[key];
  }
  return total;
}

/** Good and checked per shot, as the interval takes them; shots with nothing checked are left out. */
export function countsOf(sessions: MouldYield['sessions']): { x: number[]; n: number[] }[] {
  return sessions
    .map(({ shots }) => shots.filter((shot) => shot.checked > 0))
    .filter((shots) => shots.length > 0)
    .map((shots) => ({
      x: shots.map((shot) => shot.good),
      n: shots.map((shot) => shot.checked),
    }));
}

/** The cavity with the largest bad share, and whether it says anything; null: none was ever bad. */
export function worstCavity(
  own: MouldYield,
): { cavity: number; bad: number; checked: number } | null {
  let worst: { cavity: number; bad: number; checked: number } | null = null;
  own.byCavity.forEach(({ checked, bad }, index) => {
    if (bad === 0) return;
    if (!worst || bad / checked > worst.bad / worst.checked) {
      worst = { cavity: index + 1, bad, checked };
    }
  });
  return worst;
}

function countShots(session: Columns, index: number, which: Which, own: MouldYield): ShotCount[] {
  const shots: ShotCount[] = [];
  let number = 0;
  for (let shot = 0; shot < session.mould.length; shot += 1) {
    if (session.mould[shot] !== index) continue;
    number += 1;
    const isCold = session.cold[shot] === coldFlag;
    if ((which === 'warm' && isCold) || (which === 'cold' && !isCold)) continue;
    const count = { number, good: 0, checked: 0, notChecked: 0, isCold };
    countCells(session, shot, count, own);
    shots.push(count);
    addTo(own.tally, count);
  }
  return shots;
}

function countCells(session: Columns, shot: number, count: ShotCount, own: MouldYield): void {
  const from = session.firstCell[shot] ?? 0;
  const until = session.firstCell[shot + 1] ?? from;
  for (let cell = from; cell < until; cell += 1) {
    const code = session.cells[cell];
    if (code === closedCode) continue;
    if (code === notCheckedCode) {
      count.notChecked += 1;
      continue;
    }
    const cavity = own.byCavity[cell - from];
    count.checked += 1;
    if (cavity) cavity.checked += 1;
    if (code === goodCode) count.good += 1;
    else {
      if (cavity) cavity.bad += 1;
      const defect = resultCodes[code ?? 0] as Defect;
      own.byDefect.set(defect, (own.byDefect.get(defect) ?? 0) + 1);
    }
  }
}

function addTo(tally: Tally, count: ShotCount): void {
  tally.shots += 1;
  tally.good += count.good;
  tally.checked += count.checked;
  tally.notChecked += count.notChecked;
  if (!count.isCold) return;
  tally.coldShots += 1;
  tally.coldGood += count.good;
  tally.coldChecked += count.checked;
}

/** A mould can get more cavities from one session to the next. */
function growTo(own: MouldYield, cavities: number): void {
  while (own.byCavity.length < cavities) own.byCavity.push({ checked: 0, bad: 0 });
  own.cavities = own.byCavity.length;
}

function emptyYield({ mouldId, name }: Columns['moulds'][number]): MouldYield {
  return {
    mouldId,
    name,
    cavities: 0,
    tally: emptyTally(),
    sessions: [],
    byCavity: [],
    byDefect: new Map(),
  };
}

function emptyTally(): Tally {
  return {
    shots: 0,
    good: 0,
    checked: 0,
    notChecked: 0,
    coldShots: 0,
    coldGood: 0,
    coldChecked: 0,
  };
}
