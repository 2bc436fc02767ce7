import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { PlaceBar } from '#app/PlaceBar.tsx';
import { standingOf } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import { NamelessScreen } from '#screens/colours/NamelessScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { MaterialScreen } from '#screens/shelf/MaterialScreen.tsx';
import { ShelfScreen } from '#screens/shelf/ShelfScreen.tsx';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { changeHead, headOf, headsOf } from '#store/heads.ts';
import { namelessMixes } from '#store/nameless.ts';
import { nextName } from '#store/nameless-materials.ts';
import { endSession, entriesOf } from '#store/sessions.ts';
import { seven } from '../../hands/evening.ts';
import { Finger } from '../../hands/finger.ts';
import { aMaterial } from '../../hands/mixes.ts';
import { show } from '../../hands/show.tsx';
import { aTable, potWords, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
const finger = new Finger(11);
let atMs = 900_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();
const bookOf = () => table.shop.book;

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

async function makeUp(place: string): Promise<void> {
  if (!key(/^New mix/).query()) await press(/^Pot:/);
  await press(/^New mix/);
  await press(place);
  await press(/^New colour$/);
}

/** The doses of every pot that was mixed with some, as the log tells them. */
async function poured() {
  const lines = standingOf(await entriesOf(bookOf(), table.sessionId));
  return all(lines, 'pot-mixed').flatMap(({ said }) =>
    said.pots.flatMap(({ mix }) =>
      mix ? [mix.doses.map(({ name, amount, unit }) => [name, amount, unit])] : [],
    ),
  );
}

beforeEach(async () => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
});

afterEach(() => vi.restoreAllMocks());

describe('a shop with nothing on its shelf', () => {
  test('tells both sides of a laminate by bottles that have no name yet, and they are named later', async () => {
    const book = bookOf();
    await makeUp('Side A');
    await press(/^New colourant/);
    await press(/^Colourant 1 1 drop/);
    await press(/^Colourant 1 2 drops/);
    await press(/^New flake/);
    await expect.element(key(/^Flake 1 ⅛ tsp/)).toBeVisible();
    const told = potWords();
    await press(/^Mixed/);
    await expect.poll(poured).toEqual([
      [
        ['Colourant 1', 3, 'drop'],
        ['Flake 1', 0.125, 'tsp'],
      ],
    ]);
    await expect.poll(async () => (await headsOf(book, 'materials')).length).toBe(2);
    await expect.poll(potWords).not.toBe(told);
    await makeUp('Side B');
    // What was used for side A is on the shelf now, so that it can go in here, too.
    await press(/^Colourant 1 last/);
    await press(/^New colourant/);
    await press(/^Mixed/);
    await expect
      .poll(async () => (await poured())[1])
      .toEqual([
        ['Colourant 1', 1, 'drop'],
        ['Colourant 2', 1, 'drop'],
      ]);
    await expect.poll(async () => (await namelessMixes(book))[0]?.sides.length).toBe(2);
    const [mix] = await namelessMixes(book);
    const materials = await headsOf(book, 'materials');
    expect(materials.map(({ name, kind, unit }) => [name, kind, unit])).toEqual([
      ['Colourant 1', 'colourant', 'mL'],
      ['Flake 1', 'flake', 'g'],
      ['Colourant 2', 'colourant', 'mL'],
    ]);
    await endSession(book, table.sessionId, seven + 3_600_000);

    // Nobody knows what is there, so nothing is missing and nothing has to be bought; what went is told.
    show(table.shop, <ShelfScreen />);
    const jars = page.getByRole('link', { name: /^(Colourant|Flake) \d/ });
    await expect.poll(() => jars.elements().length).toBe(3);
    for (const jar of jars.elements()) expect(jar.textContent).toContain('not counted yet');
    expect(page.getByText(/missing/).elements()).toEqual([]);

    // From the mix the bottles are one press away, and from each of them its name.
    const [first] = materials;
    if (!first || !mix) throw new Error('There is no mix.');
    show(table.shop, <NamelessScreen mixId={mix.id} />);
    for (const { name, id } of materials) {
      await expect
        .element(page.getByRole('link', { name: `What is ${name}?` }))
        .toHaveAttribute('href', `#/material-facts/${id}`);
    }
    const written = await headOf(book, 'mixes', mix.id);
    await changeHead(book, 'materials', first.id, { name: 'Peat' }, seven + 4_000_000);
    show(table.shop, <NamelessScreen mixId={mix.id} />);
    await expect.element(page.getByRole('heading', { name: 'Peat' }).first()).toBeVisible();
    await expect.element(page.getByText('Colourant 1')).not.toBeInTheDocument();
    // The mix itself stays as it was written.
    expect(await headOf(book, 'mixes', mix.id)).toEqual(written);
    await expect.element(page.getByText('What is Flake 1?')).toBeVisible();
    show(table.shop, <MaterialScreen materialId={first.id} />);
    // 3 of side A and 1 of side B.
    await expect.element(page.getByText(/^4 drops went so far\./)).toBeVisible();
    await expect.element(page.getByText('Used 4 drops, 0.2 mL')).toBeVisible();
    await expect.element(page.getByText(/missing/)).not.toBeInTheDocument();
    show(table.shop, <SessionScreen sessionId={table.sessionId} />);
    await expect.element(page.getByText(/3 drops Peat, ⅛ tsp Flake 1/)).toBeVisible();
  });

  test('puts nothing on the shelf of what was taken away again', async () => {
    await makeUp('Only pot');
    await press(/^New colourant/);
    await press(/^New flake/);
    await press('Take away');
    await press(/^Flake 1/);
    await expect.element(key(/^Flake 1 none/)).toBeVisible();
    await press(/^Mixed/);
    await expect.poll(poured).toEqual([[['Colourant 1', 1, 'drop']]]);
    await expect
      .poll(async () => (await headsOf(bookOf(), 'materials')).map(({ name }) => name))
      .toEqual(['Colourant 1']);
  });

  test('still mixes a pot of which nobody tells what is in it, with one press more', async () => {
    await makeUp('Only pot');
    await press(/^Mixed/);
    await expect.element(key(/^Pot: Pot/)).toBeVisible();
    expect(await poured()).toEqual([]);
    expect(await headsOf(bookOf(), 'materials')).toEqual([]);
  });
});

test('a shelf that has materials takes a bottle without a name after them', async () => {
  await aMaterial(bookOf(), 'Colourant 4');
  show(table.shop, <TableScreen />);
  await makeUp('Only pot');
  await expect.element(key(/^Colourant 4 none/)).toBeVisible();
  await press(/^New colourant/);
  await expect.element(key(/^Colourant 5 1 drop/)).toBeVisible();
});

test('the next number is one more than the highest there is of its kind', () => {
  const known = ['Colourant 2', 'Colourant x', 'Flake 7', 'Black', 'Colourant 10'];
  const named = known.map((name) => ({ name }));
  expect(nextName('colourant', named)).toBe('Colourant 11');
  expect(nextName('flake', named)).toBe('Flake 8');
  expect(nextName('flake', [])).toBe('Flake 1');
});

test('a mix without a name is one press away from every page, also where no colour has one', async () => {
  await makeUp('Only pot');
  await press(/^New colourant/);
  await press(/^Mixed/);
  await expect.poll(async () => (await namelessMixes(bookOf())).length).toBe(1);
  show(table.shop, <PlaceBar at="pour" />);
  await expect.element(page.getByRole('link', { name: 'Colours' })).toBeVisible();
});
