import type { CavityResults } from '#calc/cavity-results.ts';
import {
  type Columns,
  closedCode,
  coldFlag,
  columnsOf,
  notCheckedCode,
  resultCodes,
} from '#calc/columns.ts';
import type { ShotCounts } from '#calc/yield.ts';
import type { Defect } from '#model/defect.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Result } from '#model/entry.ts';
import { truths } from './truths.ts';

/** One shot of the demo shop as its digest tells it. */
export interface DemoShot {
  session: number;
  mould: string;
  colour: string;
  injector: string;
  heat: number;
  /** How long the mould stayed shut; 0: not known. */
  openSec: number;
  isCold: boolean;
  /** Poured before the vent was opened. */
  isBefore: boolean;
  /** What each cavity gave. */
  results: readonly Result[];
}

/** The digests of a shop's sessions, oldest first. */
export function digestsOf(shop: DemoShop): Columns[] {
  return shop.sessions.map(({ id, entries }) => columnsOf(id, entries));
}

/** Every shot of a shop, in the order of filling. */
export function shotsOf(shop: DemoShop): DemoShot[] {
  const injectorNames = new Map(shop.injectors.map(({ id, name }) => [id, name]));
  const vent = ventSession(shop);
  return digestsOf(shop).flatMap((digest, session) =>
    Array.from(digest.mould, (mould, shot): DemoShot => {
      const injectorId = digest.injectorIds[digest.injector[shot] ?? -1];
      return {
        session,
        mould: digest.moulds[mould]?.name ?? '',
        colour: digest.colourways[digest.colourway[shot] ?? -1]?.name ?? '',
        injector: injectorId ? (injectorNames.get(injectorId) ?? '') : '',
        heat: digest.heat[shot] ?? 0,
        openSec: digest.openSec[shot] ?? 0,
        isCold: digest.cold[shot] === coldFlag,
        isBefore: session < vent,
        results: Array.from(
          digest.cells.subarray(digest.firstCell[shot], digest.firstCell[shot + 1]),
          (code) => resultCodes[code] ?? 'other',
        ),
      };
    }),
  );
}

/** Which session says that the vent was opened, before its first shot. */
export function ventSession(shop: DemoShop): number {
  return shop.sessions.findIndex(({ entries }) =>
    entries.some(({ said }) => said.kind === 'noted' && said.text === truths.vent.note),
  );
}

/** Shots by cavities: 1 where a cavity had the defect, null where nobody looked. */
export function matrixOf(shots: readonly DemoShot[], defect: Defect): CavityResults {
  return shots.map(({ results }) =>
    results.map((result) => (isChecked(result) ? (result === defect ? 1 : 0) : null)),
  );
}

/** Per session, in how many cavities of each shot the result was seen, of how many looked at. */
export function countsBySession(shots: readonly DemoShot[], result: Result): ShotCounts[] {
  const sessions = [...new Set(shots.map(({ session }) => session))];
  return sessions.map((session) => {
    const own = shots.filter((shot) => shot.session === session);
    const checked = own.map(({ results }) => results.filter(isChecked));
    return {
      x: checked.map((results) => results.filter((each) => each === result).length),
      n: checked.map((results) => results.length),
    };
  });
}

function isChecked(result: Result): boolean {
  const code = resultCodes.indexOf(result);
  return code !== closedCode && code !== notCheckedCode;
}
