import { expect, test } from 'vitest';
import type { Columns } from '#calc/columns.ts';
import { lastLeftMl, lastOpenSec, lastScrapG } from '#calc/last-time.ts';
import type { MouldId } from '#model/mould.ts';

const grub = '0193a000-0000-7000-8000-000000000001' as MouldId;
const shad = '0193a000-0000-7000-8000-000000000002' as MouldId;

const run = (mouldId: MouldId, leftMl: number) => ({
  inMl: 473,
  leftMl,
  pours: [{ mouldId, shouldMl: 300 }],
});
const scrap = (weighedG: number | null) => ({ massG: 20, bad: 2, isMeasured: true, weighedG });
const digest = (parts: Partial<Columns>) => parts as Columns;

test('what was left is of the newest pot of these moulds, else of the newest pot at all', () => {
  const newest = [
    digest({ runs: [run(shad, 10), run(shad, 20)] }),
    digest({}),
    digest({ runs: [run(grub, 30), run(grub, 40)] }),
  ];
  expect(lastLeftMl(newest, [grub])).toBe(40);
  expect(lastLeftMl(newest, [shad, grub])).toBe(20);
  expect(lastLeftMl(newest, [])).toBe(20);
  expect(lastLeftMl([], [grub])).toBeNull();
});

test('the scrap is of the newest session that was weighed, dry scales included', () => {
  const newest = [digest({}), digest({ scrap: scrap(null) }), digest({ scrap: scrap(0) })];
  expect(lastScrapG(newest)).toBe(0);
  expect(lastScrapG(newest.slice(0, 2))).toBeNull();
});

test('a mould stayed shut as long as its newest shot of which that is known', () => {
  const session = (open: readonly number[]) =>
    digest({
      moulds: [
        { mouldId: shad, name: 'Shad', cavities: 4 },
        { mouldId: grub, name: 'Grub', cavities: 4 },
      ],
      mould: Uint8Array.of(1, 0, 1, 1),
      openSec: Float32Array.from(open),
    });
  expect(lastOpenSec([session([180, 90, 200, 0])], grub)).toBe(200);
  expect(lastOpenSec([session([0, 90, 0, 0]), session([150, 0, 0, 0])], grub)).toBe(150);
  expect(lastOpenSec([session([0, 90, 0, 0])], grub)).toBeNull();
});
