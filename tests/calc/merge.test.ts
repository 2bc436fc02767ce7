import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mergedHead } from '#calc/merge.ts';
import { nextStamp, wallMs } from '#calc/stamp.ts';
import { Stamp } from '#model/schemas.ts';
import { figure } from '../hands/figure.ts';

const fields = ['name', 'massG', 'closed', 'deletedAt', 'fromANewerApp'] as const;
const value = fc.oneof(fc.string(), fc.integer(), fc.constant(null), fc.array(fc.integer()));

/** One device's copy of a head: some fields changed, each with the stamp of its last change. */
const aCopy = fc
  .tuple(
    fc.constantFrom('0000000a', '0000000b', '0000000c'),
    fc.array(fc.tuple(fc.constantFrom(...fields), value, fc.integer({ min: 1, max: 50 }))),
  )
  .map(([device, changes]) => {
    const head: Record<string, unknown> = { id: 'x', device, createdAt: 5, stamps: {} };
    const stamps: Record<string, string> = {};
    for (const [field, next, ms] of changes) {
      const stamp = nextStamp(stamps[field] ?? null, ms, device);
      stamps[field] = stamp;
      // One stamp is one write: what it wrote follows from it.
      head[field] = `${JSON.stringify(next)} ${stamp}`;
    }
    return { ...head, stamps } as Parameters<typeof mergedHead>[0];
  });

test('merging heads is commutative, associative and idempotent', () => {
  fc.assert(
    fc.property(aCopy, aCopy, aCopy, (a, b, c) => {
      const [x, y, z] = [a, renamed(b, a), renamed(c, a, b)];
      expect(mergedHead(x, y)).toEqual(mergedHead(y, x));
      expect(mergedHead(mergedHead(x, y), z)).toEqual(mergedHead(x, mergedHead(y, z)));
      const once = mergedHead(x, y);
      expect(mergedHead(once, y)).toEqual(once);
    }),
    { numRuns: 500 },
  );
});

test('two devices that changed two fields both keep theirs', () => {
  const base = { id: 'x', device: '0000000a', createdAt: 1, stamps: {}, name: 'Grub', massG: null };
  const a = { ...base, name: 'Grub 50', stamps: { name: nextStamp(null, 10, '0000000a') } };
  const b = { ...base, massG: 2_500, stamps: { massG: nextStamp(null, 5, '0000000b') } };
  expect(mergedHead<typeof base & { stamps: Record<string, string> }>(a, b as never)).toMatchObject(
    {
      name: 'Grub 50',
      massG: 2_500,
    },
  );
});

test('stamps of one device rise strictly: 100,000 in one ms, a clock turned back a year, a restart', () => {
  const year = 365 * 86_400_000;
  const start = Date.UTC(2026, 10, 24);
  let last: string | null = null;
  const take = (now: number) => {
    const next: string = nextStamp(last, now, 'deadbeef');
    if (last !== null && next <= last) throw new Error(`${next} after ${last}`);
    last = next;
    return next;
  };
  for (let count = 0; count < 100_000; count += 1) take(start);
  take(start - year);
  const restarted = take(start - year);
  expect(restarted).toHaveLength(26);
  expect(Stamp.safeParse?.(restarted)?.success ?? true).toBe(true);
  expect(wallMs(take(start + year))).toBe(start + year);
  figure({
    drill: 'Stamps of one device',
    required: '100,000 in one ms, a year back, a restart: strictly rising',
    reached: '100,003 taken, 0 out of order or twice',
    isMet: true,
  });
});

/** Two devices never share a device id: copies of the same device are told apart. */
function renamed<T extends { device: string; stamps: Record<string, string> }>(
  copy: T,
  ...others: { device: string }[]
): T {
  const taken = others.map(({ device }) => device);
  if (!taken.includes(copy.device)) return copy;
  const device = ['0000000a', '0000000b', '0000000c', '0000000d'].find(
    (one) => !taken.includes(one),
  );
  const text = JSON.stringify(copy).replaceAll(copy.device, device ?? '');
  return JSON.parse(text) as T;
}
