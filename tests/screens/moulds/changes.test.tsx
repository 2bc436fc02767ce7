import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { aMould, type Fill, morning, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let mould: Mould;

beforeEach(async () => {
  shop = await aShop();
  mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { material: 'silicone' });
  await page.viewport(360, 740);
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const says = (words: string | RegExp) => expect.element(page.getByText(words)).toBeVisible();
const open = () => show(shop, <MouldScreen mouldId={mould.id} />);
const changes = () => headsOf(shop.book, 'changes');
const pour = (at: number, ...gave: string[]) =>
  pourEvening(shop.book, { at, fills: gave.map((one): Fill => ({ mould, gave: one })) });
const times = (count: number, ...gave: string[]) =>
  Array.from({ length: count }, (_, index) => gave[index % gave.length] ?? '');
const day = 86_400_000;

describe('logging a change', () => {
  test('is presses alone: kind, cavities on the picture, log it', async () => {
    const root = open();
    await key('Log a change').click();
    await key('Vent opened').click();
    await key('Cavity 2').click();
    await key('Cavity 3').click();
    await key('Cavity 2').click();
    expect(root.querySelector('input, textarea')).toBeNull();
    await key('Log it').click();
    await expect
      .poll(changes)
      .toMatchObject([
        { mouldId: mould.id, kind: 'vent-opened', cavities: [3], at: morning, defect: 'short' },
      ]);
    await expect.element(key('Log it')).not.toBeInTheDocument();
    await says('Did opening the vent help?');
    await says('0 shots before, 0 since. Too few came before it: nothing to hold it against.');
  });

  test('done earlier, it stands before the first shot of that session', async () => {
    await pour(seven - 2 * day, 'gggg', 'gsgg');
    await pour(seven, 'gggg');
    open();
    await key('Log a change').click();
    await key('Mould cleaned').click();
    await key('Earlier').click();
    const before = page.getByRole('group', { name: 'Before which session' });
    await expect.element(before).toHaveTextContent('Tue 24 Nov');
    await key('One session earlier').click();
    await expect.element(before).toHaveTextContent('Sun 22 Nov');
    await key('One session earlier').click();
    await expect.element(before).toHaveTextContent('Sun 22 Nov');
    await key('Log it').click();
    await expect
      .poll(changes)
      .toMatchObject([
        { kind: 'mould-cleaned', cavities: [], at: seven - 2 * day + 5 * 60_000, defect: null },
      ]);
  });

  test('a cavity that had been the worst is noted as picked for that, another is not', async () => {
    await pour(seven, 'gsgg', 'gsgg', 'sggg');
    for (const [cavity, isPicked] of [
      ['Cavity 1', false],
      ['Cavity 2', true],
    ] as const) {
      open();
      await key('Log a change').click();
      await key('Vent opened').click();
      await key(cavity).click();
      await key('Log it').click();
      await expect.element(key('Log it')).not.toBeInTheDocument();
      const own = (await changes()).find(({ cavities }) => `Cavity ${cavities[0]}` === cavity);
      expect(own?.wasPickedAsWorst).toBe(isPicked);
    }
  });

  test('left again, nothing is logged', async () => {
    open();
    await key('Log a change').click();
    await key('Leave it').click();
    await expect.element(key('Log it')).not.toBeInTheDocument();
    expect(await changes()).toEqual([]);
  });
});

describe('did it help?', () => {
  test('too early, unclear and helped all look like answers, with how many shots more', async () => {
    await pour(seven - 3 * day, ...times(30, 'gsgg', 'gggg', 'gsgg', 'sggg'));
    open();
    await key('Log a change').click();
    await key('Vent opened').click();
    await key('Cavity 2').click();
    await key('Earlier').click();
    await key('Today').click();
    await key('Log it').click();
    await says('30 shots before, 0 since. About 5 more shots for a first answer.');
    await pour(morning + day, ...times(5, 'gggg', 'gsgg'));
    await says(/^Looks (better|the same|worse).* About \d+ more shots? will tell\.$/);
    await pour(morning + 2 * day, ...times(40, 'gggg'));
    await says('It helped');
    await says(
      /^Cavity 2: 15 of 30 short before, 2 of 45 after\. The other cavities: 7 of 90 before, 0 of 135 after\.$/,
    );
  });

  test('what else was done meanwhile is named', async () => {
    await pour(seven - 3 * day, ...times(10, 'gsgg', 'gggg'));
    await pour(seven, ...times(10, 'gggg'));
    open();
    for (const [kind, back] of [
      ['Mould cleaned', 1],
      ['Other push speed', 1],
    ] as const) {
      await key('Log a change').click();
      await key(kind).click();
      for (let press = 0; press < back; press += 1) await key('Earlier').click();
      await key('Log it').click();
      await expect.element(key('Log it')).not.toBeInTheDocument();
    }
    await says(/^Also done in that time: other push speed, Tue 24 Nov\./);
    await says(/^Also done in that time: mould cleaned, Tue 24 Nov\./);
  });

  test('taken back it is gone, and can be brought back', async () => {
    open();
    await key('Log a change').click();
    await key('New injector').click();
    await key('Log it').click();
    await says('Did the new injector help?');
    await key('Take it back: New injector').click();
    await expect.element(page.getByText('Did the new injector help?')).not.toBeInTheDocument();
    expect(await changes()).toEqual([]);
    await key('Bring back: New injector').click();
    await says('Did the new injector help?');
  });
});

describe('the cavities', () => {
  test('with few shots it is too early, and about how many more is said', async () => {
    await pour(seven, 'gsgg', 'gggg');
    open();
    // By hand: one shot in two tells and five have to, so four more of them are eight shots.
    await says(/^Too early to tell the cavities apart\. About 8 more shots\.$/);
  });

  test('one that always fails is named with its next steps, at once and by its vent', async () => {
    await pour(seven, ...times(12, 'gsgg', 'gggg', 'gsgg'));
    open();
    await says('Cavity 2 fails more than its neighbours.');
    await says("Bad in 8 of the 8 shots that tell cavities apart. By luck alone we'd expect 2.");
    await expect.element(key('Close off 2')).toBeVisible();
    await key('Vent opened, cavity 2').click();
    await key('Log it').click();
    await expect
      .poll(changes)
      .toMatchObject([{ kind: 'vent-opened', cavities: [2], wasPickedAsWorst: true }]);
    await expect
      .element(page.getByText('Cavity 2 fails more than its neighbours.'))
      .not.toBeInTheDocument();
  });

  test('all alike, none is offered to be closed', async () => {
    await pour(seven, ...times(48, 'sggg', 'gsgg', 'ggsg', 'gggs'));
    open();
    await says('All cavities look alike so far.');
    await expect.element(page.getByRole('button', { name: /^Close off/ })).not.toBeInTheDocument();
  });
});

describe('how many shots', () => {
  test('steps by ten, says the number of the average beside its own, and what to heat for it with what is lost', async () => {
    await pour(seven, ...times(20, 'gggg', 'gggs'));
    open();
    await says(/^Make \d+ shots\.$/);
    const shots = async () =>
      Number(/Make (\d+)/.exec(document.body.textContent ?? '')?.[1] ?? Number.NaN);
    const fifty = await shots();
    await key('More').click();
    await expect.poll(shots).toBeGreaterThan(fifty);
    await says(/The average alone would say \d+\./);
    await says(
      /^Heat \S+ k?g with what is lost, \S+ k?g in 8 of 10 pots\. A guess: tell what was left of 3 pots more\.$/,
    );
    await says(/26 g stays in pot and injector; its shots take what they hold\.$/);
    await says('Worked out from the 80 warm baits you looked at.');
  });
});

describe('a drift', () => {
  const was = times(60, 'gggggggg', 'gggsgggg', 'gggggggg', 'gggggggg', 'ggggdggg');
  const is = times(25, 'gsggsggg', 'ggggsggg', 'gsggdgsg');

  test('that was seen is counted no longer, says so, and can be taken back', async () => {
    const shape = { rows: 2, cols: 4 };
    mould = await aMould(shop.book, 'Shad 8', shape, { material: 'silicone' });
    await pour(seven - 20 * day, ...was);
    await pour(seven, ...is);
    open();
    await says(/^Something changed around shot \d+, /);
    await key('Seen: count anew from now').click();
    await says('Counted anew.');
    await says(/^Seen .*: only shots after that count\./);
    await expect
      .poll(changes)
      .toMatchObject([{ mouldId: mould.id, kind: 'drift-seen', at: morning }]);
    // It is no change of the mould: nothing asks whether it helped.
    await expect.element(page.getByText('Did the change help?')).not.toBeInTheDocument();
    await key('Log a change').click();
    await expect.element(key('Drift seen')).not.toBeInTheDocument();
    await page.getByRole('button', { name: /^Take it back: seen / }).click();
    await says(/^Something changed around shot \d+, /);
  });
});
