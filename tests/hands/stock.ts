import fc from 'fast-check';
import type { SessionUse } from '#calc/used.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Movement } from '#model/movement.ts';
import type { FactsOf } from '#store/heads.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { evening, id, sessionId } from './log.ts';

/** The facts of a liquid that is all we know. */
export function aMaterial(changes: Partial<FactsOf<'materials'>> = {}): FactsOf<'materials'> {
  return {
    ...plainMaterial('colourant'),
    name: 'Soot black',
    ...changes,
  };
}

/** A material as it is stored: `material 1` unless told otherwise. */
export function aStoredMaterial(changes: Partial<FactsOf<'materials'>> = {}, number = 1): Material {
  return {
    ...aMaterial(changes),
    id: id<MaterialId>('material', number),
    device: '0000000a',
    stamps: {},
    createdAt: evening,
    deletedAt: null,
  };
}

/** A movement of `material 1`, so many minutes into the evening. */
export function aMovement(
  number: number,
  says: Movement['says'],
  min = number,
  note = '',
): Movement {
  const at = evening + min * 60_000;
  const stamp = `${(evening + number).toString(16).padStart(12, '0')}-0000-0000000a`;
  return {
    id: id('movement', number),
    materialId: id('material', 1),
    at,
    writtenAt: at,
    stamp,
    device: '0000000a',
    says,
    note,
  };
}

/** A use of `material 1` in mL, so many minutes into the evening. */
export function aUse(amount: number, min: number): SessionUse {
  const materialId = id<MaterialId>('material', 1);
  return { materialId, sessionId, at: evening + min * 60_000, amount, unit: 'mL' };
}

const qty = fc.double({ min: 0.01, max: 5_000, noNaN: true });
const says: fc.Arbitrary<Movement['says']> = fc.oneof(
  fc.record({
    kind: fc.constant('bought' as const),
    qty,
    cents: fc.integer({ min: 0, max: 50_000 }),
    lot: fc.constant(''),
  }),
  fc.record({ kind: fc.constant('lost' as const), qty }),
  fc.record({ kind: fc.constant('counted' as const), level: fc.oneof(qty, fc.constant(0)) }),
  fc.constant({ kind: 'checked' as const }),
  fc
    .integer({ min: 1, max: 12 })
    .map((target) => ({ kind: 'taken-back' as const, target: id('movement', target) })),
) as fc.Arbitrary<Movement['says']>;

/** Any movements of one material, some of them taken back, in the order of writing. */
export const someMovements: fc.Arbitrary<Movement[]> = fc
  .array(fc.tuple(says, fc.integer({ min: 0, max: 500 })), { maxLength: 14 })
  .map((all) => all.map(([one, min], index) => aMovement(index + 1, one, min)));

/** Any uses of it, at half minutes, so that none falls on a movement. */
export const someUses: fc.Arbitrary<SessionUse[]> = fc.array(
  fc.tuple(qty, fc.integer({ min: 0, max: 500 })).map(([amount, min]) => aUse(amount, min + 0.5)),
  { maxLength: 14 },
);
