import type { Standing } from '#calc/log.ts';
import type { SaidOf } from '#model/entry.ts';
import type { FrozenInjector } from '#model/gear.ts';
import type { FrozenMould, MouldId } from '#model/mould.ts';

/** The moulds of a session as they stand now, the line-up, and the injector. */
export function mouldsOf(lines: readonly Standing[]) {
  const moulds = new Map<MouldId, FrozenMould>();
  let lineUp: readonly MouldId[] = [];
  let injector: FrozenInjector | null = null;
  for (const { said } of lines) {
    if (said.kind === 'lined-up') {
      for (const mould of said.moulds) {
        // Put on the table again: what was closed or chosen tonight stays.
        if (!moulds.has(mould.mouldId)) moulds.set(mould.mouldId, mould);
      }
      lineUp = said.moulds.map((mould) => mould.mouldId);
      injector = said.injector;
    } else if (said.kind === 'injector-taken') {
      injector = said.injector;
    } else if (said.kind === 'cavity-closed' || said.kind === 'set-time-chosen') {
      const mould = moulds.get(said.mouldId);
      if (mould) moulds.set(said.mouldId, changed(mould, said));
    }
  }
  return { moulds, lineUp, injector };
}

function changed(
  mould: FrozenMould,
  said: SaidOf<'cavity-closed'> | SaidOf<'set-time-chosen'>,
): FrozenMould {
  if (said.kind === 'set-time-chosen') {
    return { ...mould, setSec: said.setSec, hasNoClock: said.hasNoClock };
  }
  const others = mould.closed.filter((cavity) => cavity !== said.cavity);
  return { ...mould, closed: said.isClosed ? [...others, said.cavity].sort(byNumber) : others };
}

function byNumber(a: number, b: number): number {
  return a - b;
}
