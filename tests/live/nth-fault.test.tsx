import { unwrap } from 'idb';
import { afterEach, expect, test } from 'vitest';
import { unsavedOf } from '#live/unsaved.ts';
import { type SessionLog, useSessionLog } from '#live/use-session-log.ts';
import { ShotId } from '#model/entry.ts';
import { useFinish } from '#screens/table/use-finish.ts';
import { freshId } from '#store/book.ts';
import { type Db, openDatabase } from '#store/db.ts';
import { runningEntries } from '#store/running.ts';
import { startPouring } from '#store/start.ts';
import { aMould, results, seven } from '../hands/evening.ts';
import { figure } from '../hands/figure.ts';
import { type Call, type Fault, failNth, type NthCall } from '../hands/nth-call.ts';
import { aShop, show, type TestShop } from '../hands/show.tsx';
import { ticking } from '../hands/ticking.ts';

// Each call that a session of ten shots makes of its database goes wrong once, in each way.
const shots = 10;
const faults: readonly Fault[] = ['UnknownError', 'AbortError', 'QuotaExceededError', 'no answer'];

let nth: NthCall | null = null;
afterEach(() => nth?.restore());

/** A shop whose database fails, the hand at its table, and a second look at the disk that never fails. */
interface Evening {
  shop: TestShop;
  probe: Db;
  hand: { log?: SessionLog | null | undefined; finish?: () => void; isStuck?: boolean };
  /** Waits for something; while it does not come, time runs on. */
  until: (isSo: () => boolean) => Promise<boolean>;
}

async function anEvening(): Promise<Evening> {
  const shop = await aShop();
  shop.set(seven);
  const pass = ticking(shop);
  const hand: Evening['hand'] = {};
  function Finish({ log }: { log: SessionLog }) {
    Object.assign(hand, useFinish(log));
    return null;
  }
  function Hand() {
    const log = useSessionLog();
    hand.log = log;
    return log ? <Finish log={log} /> : null;
  }
  const probe = await openDatabase(shop.book.db.name);
  const until = async (isSo: () => boolean) => {
    for (let turn = 0; turn < 600 && !isSo(); turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, turn < 20 ? 1 : 5));
      if (turn > 20) pass(1_000);
    }
    return isSo();
  };
  show(shop, <Hand />);
  return { shop, probe, hand, until };
}

/** Does an act as a person does who presses again when nothing happened. */
async function persist(until: Evening['until'], act: () => Promise<unknown>): Promise<void> {
  for (let press = 1; press <= 3; press += 1) {
    let said: 'done' | 'no' | null = null;
    act().then(
      () => {
        said = 'done';
      },
      () => {
        said = 'no';
      },
    );
    await until(() => said !== null);
    if (said === 'done') return;
    // Without an answer the app is loaded anew and opens where it stands.
    if (said === null) return nth?.answer();
  }
}

/** Ten shots and Finish. Answers with what was not as promised; empty: nothing. */
async function pourTen({ shop, probe, hand, until }: Evening): Promise<string[]> {
  const { book } = shop;
  const safe = { ...book, db: probe };
  const wrong: string[] = [];
  const mould = await aMould(safe, 'Grub 50');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  await persist(until, () => startPouring(book, beginning, shop.clock.now()));
  if (!(await until(() => Boolean(hand.log)))) return ['the table does not come'];
  const opening = (await runningEntries(safe)) ?? [];
  const potIds = opening.flatMap(({ said }) =>
    said.kind === 'pot-mixed' ? said.pots.map(({ potId }) => potId) : [],
  );

  let shotId = ShotId.parse(freshId(seven));
  for (let press = 1; press <= 2 * shots; press += 1) {
    shop.set(shop.clock.now() + 100_000);
    if (press % 2 === 1) shotId = ShotId.parse(freshId(shop.clock.now()));
    const fill = { shotId, mouldId: mould.id, volumeMl: 42, closed: [], setSec: 180 };
    let isAnswered = false;
    void hand.log
      ?.write(
        press % 2 === 1
          ? { kind: 'filled', shots: [fill], potIds, injectorId: null }
          : { kind: 'opened', shots: [{ shotId, results: results('gggg') }] },
      )
      .then(() => {
        isAnswered = true;
      });
    if (!(await until(() => isAnswered))) wrong.push(`press ${press} is not answered`);
    const onDisk = ((await runningEntries(safe)) ?? []).map(({ id }) => id);
    const ticked = shop.felt.filter((felt) => felt === 'confirm').length;
    if (onDisk.length < opening.length + ticked) wrong.push(`false tick at press ${press}`);
    const waiting = unsavedOf(book, shop.clock).waiting();
    if (waiting.length > 0 && !(await until(() => (hand.log?.unsaved ?? 1) > 0 || !waiting.length)))
      wrong.push(`press ${press} waits and nobody says so`);
    const known = new Set([...onDisk, ...waiting.map(({ id }) => id)]);
    if (known.size !== opening.length + press) wrong.push(`press ${press} is nowhere`);
  }

  await persist(until, async () => {
    hand.finish?.();
    if (!(await until(() => hand.log === null || hand.isStuck === true)))
      throw new Error('No end.');
    if (hand.log !== null) throw new Error('Not stored.');
  });
  nth?.answer();
  await until(() => hand.log === null);
  const sealed = await probe.getAll('sealed');
  const ids = sealed.flatMap(({ entries }) => entries.map(({ id }) => id));
  const filled = sealed.flatMap(({ entries }) =>
    entries.filter(({ said }) => said.kind === 'filled'),
  );
  const opened = sealed.flatMap(({ entries }) =>
    entries.filter(({ said }) => said.kind === 'opened'),
  );
  if (sealed.length !== 1) wrong.push(`${sealed.length} sealed sessions`);
  if (filled.length !== shots || opened.length !== shots)
    wrong.push(`${filled.length} fills and ${opened.length} results at the end`);
  if (new Set(ids).size !== ids.length) wrong.push('a line stands twice');
  if ((await probe.count('entries')) > 0) wrong.push('lines run on without a session');
  return wrong;
}

const sum = { tried: 0, wrong: [] as string[] };

/** A whole evening in which one call goes wrong. False when there were not so many calls. */
async function failOnce(call: Call, number: number, fault: Fault): Promise<boolean> {
  const evening = await anEvening();
  const ours = unwrap(evening.shop.book.db);
  nth = failNth(call, number, fault, (db) => db === ours);
  const found = await pourTen(evening).catch((error: unknown) => [String(error)]);
  const isDone = nth.isDone();
  nth.restore();
  evening.probe.close();
  evening.shop.book.db.close();
  sum.wrong.push(...found.map((what) => `${call} ${number}, ${fault}: ${what}`));
  sum.tried += isDone ? 1 : 0;
  return isDone;
}

test.each(faults)(
  `each put and each commit of a session of ${shots} shots goes wrong once, %s: not one shot is lost`,
  async (fault) => {
    for (const call of ['put', 'commit'] as const) {
      let number = 1;
      while (await failOnce(call, number, fault)) number += 1;
      expect(number).toBeGreaterThan(2 * shots);
    }
    expect(sum.wrong).toEqual([]);
  },
  120_000,
);

test('each opening of a transaction goes wrong once, in one of these ways by turns: not one shot is lost', async () => {
  let number = 1;
  while (await failOnce('open', number, faults[number % faults.length] as Fault)) number += 1;
  expect(number).toBeGreaterThan(4 * shots);
  figure({
    drill: 'Each storage call fails once',
    required: 'all shots stored or shown as not saved, 0 false ticks',
    reached: `${sum.tried} sessions with one fault, ${sum.wrong.length} promises broken`,
    isMet: sum.wrong.length === 0,
  });
  expect(sum.wrong).toEqual([]);
}, 120_000);

test('a device that hangs for ten seconds: presses are told as not saved meanwhile, and stored once each', async () => {
  const evening = await anEvening();
  const { shop, probe, hand, until } = evening;
  const mould = await aMould(shop.book, 'Grub 50');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  await startPouring(shop.book, beginning, seven);
  expect(await until(() => Boolean(hand.log))).toBe(true);
  // Another connection writes on and on: nothing gets past it.
  let isHanging = true;
  const blocking = probe.transaction('entries', 'readwrite');
  const goOn = async () => {
    while (isHanging) await blocking.store.get(['x', 'x', 'x']);
  };
  const blocked = goOn();
  for (let press = 1; press <= shots; press += 1) {
    let isAnswered = false;
    void hand.log?.write({ kind: 'noted', text: `Press ${press}` }).then(() => {
      isAnswered = true;
    });
    expect(await until(() => isAnswered)).toBe(true);
    expect(await until(() => hand.log?.unsaved === press)).toBe(true);
  }
  expect(shop.felt).toEqual(Array.from({ length: shots }, () => 'refuse'));
  isHanging = false;
  await blocked;
  expect(await until(() => hand.log?.unsaved === 0)).toBe(true);
  const texts = (await runningEntries(shop.book))?.flatMap(({ said }) =>
    said.kind === 'noted' ? [said.text] : [],
  );
  expect(texts).toEqual(Array.from({ length: shots }, (_, index) => `Press ${index + 1}`));
  probe.close();
});
