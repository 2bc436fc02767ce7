import { expect, test } from 'vitest';
import { lateSound } from '#platform/late-sound.ts';
import type { Sound } from '#platform/sound.ts';

function aSound() {
  const heard: string[] = [];
  const sound: Sound = {
    canSound(tell) {
      heard.push('held');
      tell(true);
      return () => heard.push('let go');
    },
    arm: (places) => heard.push(`armed ${places.map(({ place }) => place).join()}`),
    hush: (place) => heard.push(`hushed ${place}`),
    ready: (place) => heard.push(`ready ${place}`),
    logged: () => heard.push('logged'),
    wrongWay: () => heard.push('wrong way'),
  };
  return { sound, heard };
}

test('a sound that has come is told, armed, heard and let go as itself', async () => {
  const { sound, heard } = aSound();
  const late = lateSound(async () => sound);
  late.logged();
  const told: boolean[] = [];
  const letGo = late.canSound((can) => told.push(can), null);
  await expect.poll(() => told).toEqual([true]);
  late.arm([{ place: 2, inMs: 1_000 }]);
  late.hush(2);
  late.ready(1);
  late.logged();
  late.wrongWay();
  letGo();
  expect(heard).toEqual([
    'held',
    'armed 2',
    'hushed 2',
    'ready 1',
    'logged',
    'wrong way',
    'let go',
  ]);
});

test('what was let go before it came is never held', async () => {
  const { sound, heard } = aSound();
  let come = () => {};
  const late = lateSound(
    () =>
      new Promise((resolve) => {
        come = () => resolve(sound);
      }),
  );
  late.canSound(() => heard.push('told'), null)();
  come();
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(heard).toEqual([]);
});

test('a sound that does not come is told as none', async () => {
  const told: boolean[] = [];
  lateSound(() => Promise.reject(new Error('gone'))).canSound((can) => told.push(can), null);
  await expect.poll(() => told).toEqual([false]);
});
