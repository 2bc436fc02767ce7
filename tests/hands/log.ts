import fc from 'fast-check';
import { nextStamp } from '#calc/stamp.ts';
import { defects } from '#model/defect.ts';
import type { Entry, Said, SaidOf, SessionId } from '#model/entry.ts';
import type { MaterialId } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { FrozenMould, MouldId } from '#model/mould.ts';
import type { Stamp } from '#model/schemas.ts';
import { trials } from '#model/trial.ts';

/** A readable id: `id('shot', 3)`. Version and variant bits as RFC 9562 wants them. */
export function id<T extends string>(kind: string, number: number): T {
  const kindHex = [...kind].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 0xffff, 7);
  const tail = `${kindHex.toString(16).padStart(4, '0')}${number.toString(16).padStart(8, '0')}`;
  return `0193a000-0000-7000-8000-${tail}` as T;
}

export const sessionId = id<SessionId>('session', 1);
/** 24 Nov 2026, 18:00 UTC. */
export const evening = Date.UTC(2026, 10, 24, 18);

/** A mould on the table, 2 rows by 2 columns unless told otherwise. */
export function aFrozenMould(number: number, changes: Partial<FrozenMould> = {}): FrozenMould {
  return {
    mouldId: id<MouldId>('mould', number),
    name: `Mould ${number}`,
    layout: { kind: 'grid', rows: 2, cols: 2, run: 'down', from: 'top-left' },
    opens: 'same',
    material: 'aluminium',
    massG: null,
    partMl: null,
    sprueMl: null,
    section: null,
    closed: [],
    setSec: null,
    hasNoClock: false,
    heat: null,
    ownOpensSec: [],
    warmAboveK: 15,
    defectOrder: [...defects],
    ...(number === 1 ? { makes: 'tail' } : {}),
    ...(number === 2
      ? { needs: [{ mouldId: id<MouldId>('mould', 1), each: 1, name: 'Mould 1', part: 'tail' }] }
      : {}),
    ...(number === 3 ? { fill: 'by-hand' } : {}),
    ...changes,
  };
}

/** Writes entries as a device would: one a minute unless `at` is given, each with a later stamp. */
export class Pen {
  entries: Entry[] = [];
  #last: Stamp | null = null;
  #now = evening;
  readonly device: string;

  constructor(device = '0000000a') {
    this.device = device;
  }

  write(said: Entry['said'], at = this.#now + 60_000): Entry {
    this.#now = at;
    this.#last = nextStamp(this.#last, at, this.device);
    const number = this.entries.length + 1;
    const entry = {
      id: id(`entry ${this.device}`, number),
      sessionId,
      at,
      writtenAt: at,
      stamp: this.#last,
      device: this.device,
      said,
    } as Entry;
    this.entries.push(entry);
    return entry;
  }

  /** Session begun, two moulds on the table, one pot of two cups. */
  open(moulds: FrozenMould[] = [aFrozenMould(1), aFrozenMould(2)]): this {
    this.write({ kind: 'session-begun', zone: 'Europe/Berlin', ambientC: 20, pourC: 165 }, evening);
    this.write({ kind: 'lined-up', moulds, injector: null }, evening);
    this.write(potMixed(1), evening);
    return this;
  }

  /** One mould filled; its shot carries `number`. */
  fill(mould: number, number: number, at?: number, setSec: number | null = 180): Entry {
    return this.write(filled(mould, number, setSec), at);
  }

  /** The shot `number` logged with these results. */
  log(
    number: number,
    results: ('good' | 'short' | 'dent' | 'closed' | 'not-checked')[],
    at?: number,
  ) {
    return this.write({ kind: 'opened', shots: [{ shotId: id('shot', number), results }] }, at);
  }
}

export function potMixed(number: number, slot = 0): Said {
  return {
    kind: 'pot-mixed',
    colourwayId: null,
    name: `Pot ${number}`,
    isAlone: slot === 0,
    pots: [
      {
        potId: id('pot', number),
        slot,
        name: `Pot ${number}`,
        swatch: null,
        volumeMl: 473.176473,
        meanHeats: 0,
        maxHeats: 0,
      },
    ],
  };
}

/** The same, of a mix: `drops` of material 2 in plastisol that is material 1. */
export function dyedPot(number: number, drops: number, heats = 0): SaidOf<'pot-mixed'> {
  const said = potMixed(number) as SaidOf<'pot-mixed'>;
  const dose = { materialId: id<MaterialId>('material', 2), name: 'Soot black', isPinned: false };
  const mix = {
    mixId: id<MixId>('mix', 1),
    version: 1,
    role: 'only',
    plastisolId: id<MaterialId>('material', 1),
    doses: [{ ...dose, amount: drops, unit: 'drop' }],
  } as const;
  const remelt = { meanHeats: heats, maxHeats: heats };
  return {
    ...said,
    pots: said.pots.map((pot) => ({ ...pot, ...remelt, mix: { ...mix, doses: [...mix.doses] } })),
  };
}

export function filled(mould: number, number: number, setSec: number | null = 180): Said {
  return {
    kind: 'filled',
    shots: [
      {
        shotId: id('shot', number),
        mouldId: id('mould', mould),
        volumeMl: 42,
        closed: [],
        setSec,
      },
    ],
    potIds: [id('pot', 1)],
    injectorId: null,
  };
}

const oneTo = (most: number) => fc.integer({ min: 1, max: most });
const result = fc.constantFrom('good', 'short', 'dent', 'closed', 'not-checked');

/** Anything a hand could press at the table, also what makes no sense where it stands. */
export const aPress: fc.Arbitrary<Said> = fc.oneof(
  fc.tuple(oneTo(3), oneTo(12)).map(([mould, shot]) => filled(mould, shot)),
  fc
    .tuple(oneTo(12), fc.array(result, { minLength: 4, maxLength: 4 }))
    .map(
      ([shot, results]): Said =>
        ({ kind: 'opened', shots: [{ shotId: id('shot', shot), results }] }) as Said,
    ),
  oneTo(12).map((shot): Said => ({ kind: 'clock-stopped', shotId: id('shot', shot) })),
  fc
    .tuple(oneTo(3), fc.boolean())
    .map(
      ([mould, isSkipped]): Said => ({ kind: 'skipped', mouldId: id('mould', mould), isSkipped }),
    ),
  fc.tuple(oneTo(3), oneTo(4), fc.boolean()).map(
    ([mould, cavity, isClosed]): Said => ({
      kind: 'cavity-closed',
      mouldId: id('mould', mould),
      cavity,
      isClosed,
    }),
  ),
  fc.tuple(oneTo(3), fc.integer({ min: 0, max: 1 })).map(([pot, slot]) => potMixed(pot, slot)),
  fc.tuple(oneTo(3), oneTo(60)).map(([pot, drops]): Said => dyedPot(pot, drops)),
  oneTo(3).map((pot): Said => ({ kind: 'pot-heated', potId: id('pot', pot) })),
  oneTo(3).map((pot): Said => ({ kind: 'pot-emptied', potId: id('pot', pot) })),
  fc
    .tuple(oneTo(3), fc.integer({ min: 100, max: 200 }))
    .map(([pot, tempC]): Said => ({ kind: 'pot-read', potId: id('pot', pot), tempC })),
  oneTo(3).map(
    (pot): Said => ({
      kind: 'pot-topped-up',
      potId: id('pot', pot),
      volumeMl: 60,
      meanHeats: 2,
      maxHeats: 3,
    }),
  ),
  fc
    .tuple(oneTo(3), fc.integer({ min: 20, max: 80 }))
    .map(([mould, tempC]): Said => ({ kind: 'mould-read', mouldId: id('mould', mould), tempC })),
  fc.tuple(oneTo(12), oneTo(3)).map(
    ([shot, pot]): Said => ({
      kind: 'layer-poured',
      potId: id('pot', pot),
      shots: [{ shotId: id('shot', shot), volumeMl: 20 }],
    }),
  ),
  oneTo(12).map((shot): Said => ({ kind: 'layers-ended', shotId: id('shot', shot) })),
  oneTo(3).map((pot): Said => ({ kind: 'pot-chosen', potIds: [id('pot', pot)] })),
  fc.array(oneTo(4), { maxLength: 3 }).map(
    (some): Said => ({
      kind: 'colours-planned',
      colourwayIds: some.map((colour) => id('colourway', colour)),
    }),
  ),
  fc.constantFrom('Ada', 'Ben').map((name): Said => ({ kind: 'pourer-named', name })),
  fc
    .tuple(oneTo(3), fc.nat(60))
    .map(([mould, count]): Said => ({ kind: 'tray-counted', mouldId: id('mould', mould), count })),
  fc
    .tuple(oneTo(12), fc.constantFrom(...trials), fc.option(fc.boolean()))
    .map(([shot, what, did]): Said => ({ kind: 'tried', shotId: id('shot', shot), what, did })),
  fc.nat(400).map((massG): Said => ({ kind: 'scrap-weighed', massG })),
  fc.array(oneTo(3), { maxLength: 3 }).map(
    (moulds): Said => ({
      kind: 'lined-up',
      moulds: [...new Set(moulds)].map((mould) => aFrozenMould(mould)),
      injector: null,
    }),
  ),
);

/** A session of arbitrary presses, some of them taken back or put right. */
export const aSession: fc.Arbitrary<Entry[]> = fc
  .array(
    fc.tuple(aPress, fc.integer({ min: 0, max: 600 }), fc.constantFrom('', '', 'back', 'right')),
    { maxLength: 40 },
  )
  .map((presses) => {
    const pen = new Pen().open();
    let at = evening;
    for (const [said, gapSec, fate] of presses) {
      at += gapSec * 1_000;
      const entry = pen.write(said, at);
      if (fate === 'back') pen.write({ kind: 'taken-back', target: entry.id }, at + 500);
      if (fate === 'right') {
        pen.write(
          { kind: 'put-right', target: entry.id, says: said, happenedAt: at - 120_000 },
          at + 500,
        );
      }
    }
    return pen.entries;
  });
