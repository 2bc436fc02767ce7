import { wallNow } from '#platform/clock.ts';
import { deviceDrawer } from '#platform/drawer.ts';
import { inTurn } from '#platform/turns.ts';
import { keepUp } from '#store/keep-up.ts';
import { joinWindows } from '#store/notice.ts';

/** What a window asks of this worker: one act of the keeper, answered under the same number. */
interface Asked {
  number: number;
  act: 'check' | 'look' | 'forget' | 'hasRoom' | 'makeRoom' | 'makeRoomIfFull';
}

// The worker that keeps the second copy of the logbook whose name it was given. It hears of every
// write the way other windows do, so no place in the app has to think of it.
const { name } = self;
const means = { openDrawer: () => deviceDrawer(name), inTurn, now: wallNow };
const keeper = keepUp(name, means, (news) => self.postMessage(news));
joinWindows(name);

self.addEventListener('message', ({ data: { number, act } }: MessageEvent<Asked>) => {
  keeper[act]().then(
    (answer) => self.postMessage({ number, answer }),
    (error: unknown) => self.postMessage({ number, failure: String(error) }),
  );
});
