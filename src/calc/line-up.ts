import { type Columns, closedCode, goodCode, notCheckedCode, resultCodes } from '#calc/columns.ts';
import { defaultWarmAboveK } from '#calc/warmth.ts';
import { type Defect, defects } from '#model/defect.ts';
import type { FrozenInjector, Injector } from '#model/gear.ts';
import type { FrozenMould, Mould, MouldId } from '#model/mould.ts';

const badCavitiesNeeded = 5;

/**
 * The mould as it goes on the table, with what its own history teaches. `others`: the moulds of the
 * shop, for the names of the parts it takes; a part mould that makes no parts any more is left out.
 */
export function frozenMould(
  mould: Mould,
  history: readonly Columns[],
  others: readonly Mould[] = [],
): FrozenMould {
  const { name, layout, opens, material, massG, partMl, sprueMl, section } = mould;
  const { closed, setSec, hasNoClock, heat } = mould;
  const needs = (mould.needs ?? []).flatMap(({ mouldId, each }) => {
    const maker = others.find(({ id }) => id === mouldId);
    return maker?.makes ? [{ mouldId, each, name: maker.name, part: maker.makes }] : [];
  });
  const { order, badSeen } = defectOrderOf(mould.id, history);
  const facts = { name, layout, opens, material, massG, partMl, sprueMl, section };
  return {
    mouldId: mould.id,
    ...facts,
    closed,
    setSec,
    hasNoClock,
    heat,
    ...(mould.makes ? { makes: mould.makes } : {}),
    ...(needs.length > 0 ? { needs } : {}),
    ...(mould.fill ? { fill: mould.fill } : {}),
    ownOpensSec: ownOpensOf(mould.id, history),
    // Silicone and stone hardly chill the plastic's skin (contact temperatures of methods-heat 1).
    warmAboveK: material === 'aluminium' ? defaultWarmAboveK : null,
    defectOrder: order.filter((defect) => defect !== 'came-apart' || needs.length > 0),
    badSeen,
  };
}

/** The injector as it goes on the table. */
export function frozenInjector(injector: Injector): FrozenInjector {
  const { id, name, capacityMl, boreMm, isTwin } = injector;
  return { injectorId: id, name, capacityMl, boreMm, isTwin };
}

/** How long the mould's good shots stayed shut, s, newest last, at most 20. */
function ownOpensOf(mouldId: MouldId, history: readonly Columns[]): number[] {
  const opens: number[] = [];
  eachShotOf(mouldId, history, (session, shot, cells) => {
    const sec = session.openSec[shot] ?? 0;
    if (sec > 0 && cells.every((code) => code === goodCode || code === closedCode)) opens.push(sec);
  });
  return opens.slice(-20);
}

/** Defects of the mould, commonest first, once there were five bad cavities; the usual order until then. */
function defectOrderOf(
  mouldId: MouldId,
  history: readonly Columns[],
): { order: Defect[]; badSeen: number } {
  const counts = new Map<Defect, number>();
  let bad = 0;
  eachShotOf(mouldId, history, (_session, _shot, cells) => {
    for (const code of cells) {
      if (code <= notCheckedCode) continue;
      const defect = resultCodes[code] as Defect;
      counts.set(defect, (counts.get(defect) ?? 0) + 1);
      bad += 1;
    }
  });
  if (bad < badCavitiesNeeded) return { order: [...defects], badSeen: 0 };
  const order = defects.toSorted((a, b) => (counts.get(b) ?? 0) - (counts.get(a) ?? 0));
  return { order, badSeen: bad };
}

function eachShotOf(
  mouldId: MouldId,
  history: readonly Columns[],
  look: (session: Columns, shot: number, cells: Uint8Array) => void,
): void {
  for (const session of history) {
    const index = session.moulds.findIndex((mould) => mould.mouldId === mouldId);
    if (index === -1) continue;
    session.mould.forEach((of, shot) => {
      if (of !== index) return;
      const from = session.firstCell[shot] ?? 0;
      look(session, shot, session.cells.subarray(from, session.firstCell[shot + 1] ?? from));
    });
  }
}
