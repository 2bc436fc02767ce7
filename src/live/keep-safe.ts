import { unknownSafety } from '#live/late-safety.ts';
import type { Safety, SafetyState } from '#live/safety.ts';
import type { Room } from '#platform/room.ts';
import { type Book, seeStamp } from '#store/book.ts';
import { canaryOf, forgetCanary, remember, type Untold } from '#store/canary.ts';
import type { Held } from '#store/held.ts';
import type { KeeperNews } from '#store/keep-up.ts';
import { reserveWith } from '#store/room.ts';

interface Means {
  name: string;
  /** Null while the logbook does not open: then there is only a look. */
  book: () => Book | null;
  now: () => number;
  room: Room;
  /** Starts the worker that keeps the copy of the logbook `name`. */
  startWorker: (name: string) => Worker;
}
type Checked = Extract<KeeperNews, { news: 'checked' }>;
type Heard = KeeperNews | { number: number; answer?: unknown; failure?: string };

/** Less than this is no phone's storage. */
const leastBytes = 300 * 1024 * 1024;

/** Keeps the logbook safe: starts the worker when it is first needed and remembers what it tells. */
export function keepSafe({ name, book, now, room, startWorker }: Means): Safety {
  const first = canaryOf(name);
  let state: SafetyState = { ...unknownSafety, untold: first?.untold ?? null };
  let held: Held | null = null;
  const hearers = new Set<() => void>();
  const turn = (changes: Partial<SafetyState>) => {
    state = { ...state, ...changes };
    const { wasAsked } = canaryOf(name) ?? { wasAsked: false };
    state.shouldAsk = state.isPromised === false && !wasAsked && (held?.sessions ?? 0) > 0;
    for (const tell of hearers) tell();
  };

  function rememberHeld(): void {
    // What is missing stays remembered until the person has read it.
    if (!held || (state.untold && isMissing(state.untold))) return;
    remember(name, { held, hasCopy: (state.copy?.records ?? 0) > 0, at: now() });
  }

  function hearHeld(news: Held, copy: SafetyState['copy'], isTight: boolean): void {
    held = news;
    turn({ copy, trouble: isTight ? 'full' : null });
    rememberHeld();
  }

  function hearChecked(news: Checked): void {
    const { findings, copy, isTight } = news;
    const opened = book();
    if (opened) seeStamp(opened, findings.newestStamp);
    const untold = untoldOf(news, canaryOf(name));
    if (untold) {
      remember(name, { untold });
      turn({ untold });
    }
    hearHeld(news.held, copy, isTight);
  }

  function hearNews(news: KeeperNews): void {
    if (news.news === 'checked') hearChecked(news);
    else if (news.news === 'held') hearHeld(news.held, state.copy && news.held, news.isTight);
    else turn({ trouble: news.why });
  }

  let worker: Worker | null = null;
  let asked = 0;
  const open = new Map<number, (answer: unknown, failure?: string) => void>();
  function atWork(): Worker {
    if (worker) return worker;
    const own = startWorker(name);
    worker = own;
    own.addEventListener('message', ({ data }: MessageEvent<Heard>) => {
      if ('news' in data) hearNews(data);
      else open.get(data.number)?.(data.answer, data.failure);
    });
    own.addEventListener('error', () => {
      own.terminate();
      // The next one to need it starts another.
      if (worker === own) worker = null;
      turn({ copy: null, trouble: 'other' });
      // Nobody waits for a worker that did not start: a press may be among those who asked.
      for (const answer of [...open.values()]) answer(undefined, 'The worker broke down.');
    });
    return own;
  }
  function ask(act: string): Promise<unknown> {
    asked += 1;
    const number = asked;
    return new Promise((resolve, reject) => {
      open.set(number, (answer, failure) => {
        open.delete(number);
        if (failure === undefined) resolve(answer);
        else reject(new Error(failure));
      });
      atWork().postMessage({ number, act });
    });
  }

  const check = async () => void (await ask('check'));
  return {
    state: () => state,
    hear(tell) {
      hearers.add(tell);
      return () => hearers.delete(tell);
    },
    async start() {
      reserveWith(async (isSure) => (await ask(isSure ? 'makeRoom' : 'makeRoomIfFull')) === true);
      await check();
      const [isPromised, bytes] = await Promise.all([room.isPromised(), room.bytes()]);
      turn({
        isPromised,
        isCramped: isPromised !== true && bytes !== null && bytes.most < leastBytes,
      });
    },
    check,
    makeRoom: async () => (await ask('makeRoomIfFull')) === true,
    hasRoom: async () => (await ask('hasRoom')) === true,
    look: async () => (await ask('look')) as Held | null,
    async forget() {
      await ask('forget');
      forgetCanary(name);
    },
    noted() {
      remember(name, { untold: null });
      turn({ untold: null });
      rememberHeld();
    },
    async ask() {
      remember(name, { wasAsked: true });
      turn({ isPromised: await room.promise() });
    },
    skipAsking() {
      remember(name, { wasAsked: true });
      turn({});
    },
  };
}

/** What the person has to hear; null: nothing new. What was not noted before is kept in the sum. */
function untoldOf(
  { before, held, findings, isFresh }: Checked,
  canary: ReturnType<typeof canaryOf>,
): Untold | null {
  const known = canary?.held ?? before;
  const { asideOf } = findings;
  const found: Untold = {
    putBack: findings.putBack,
    putRight: findings.putRight,
    setAside: findings.setAside,
    missingEntries: Math.max(0, known.entries - held.entries - asideOf.entries),
    missingMoulds: Math.max(0, known.moulds - held.moulds - asideOf.moulds),
    missingOthers: Math.max(0, othersIn(known) - othersIn(held) - asideOf.others),
    missingPictures: Math.max(0, held.bare - known.bare),
    copyAgain: findings.damagedLines > 0 || (isFresh && canary?.hasCopy === true),
  };
  return countOf(found) === 0 ? null : found;
}

/** Every record that has no word of its own, the settings too. */
function othersIn({ records, entries, moulds }: Held): number {
  return records - entries - moulds;
}

function isMissing(untold: Untold): boolean {
  const { missingEntries, missingMoulds, missingOthers, missingPictures } = untold;
  return [missingEntries, missingMoulds, missingOthers, missingPictures].some((count) => count > 0);
}

function countOf({ putBack, putRight, copyAgain, ...counts }: Untold): number {
  const all = [putBack, putRight, counts].flatMap((part): number[] => Object.values(part));
  return all.reduce((sum, count) => sum + count, copyAgain ? 1 : 0);
}
