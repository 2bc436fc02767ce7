import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { SoundCheckScreen } from '#screens/checks/SoundCheckScreen.tsx';
import { settingsOf } from '#store/settings.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let heard: string[];
let tell: (can: boolean) => void;

beforeEach(async () => {
  const own: string[] = [];
  heard = own;
  shop = await aShop();
  shop.sound = {
    ...shop.sound,
    canSound: (told, music) => {
      tell = told;
      own.push(`for ${music}`);
      return () => own.push('let go');
    },
    ready: (place) => own.push(`ready ${place}`),
  };
  show(shop, <SoundCheckScreen />);
  await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Sound check');
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const set = async () => {
  const { music, hearing } = await settingsOf(shop.book);
  return { music, hearing };
};
const question = () => page.getByRole('heading', { name: 'Hear that over everything?' });

/** Says where the music plays, and lets sound wake. */
async function answer(place: string): Promise<void> {
  await key(place).click();
  await expect.element(question()).toBeVisible();
  await expect.poll(() => heard.at(-1)).toMatch(/^for [^n]|^for none/);
  tell(true);
}

test.each([
  ['This phone', 'this-phone'],
  ['Somewhere else', 'elsewhere'],
  ['No music', 'none'],
] as const)(
  'music on "%s" is kept, then the ready sound plays once for it',
  async (word, music) => {
    expect(question().query()).toBeNull();
    await answer(word);
    expect(await set()).toEqual({ music, hearing: null });
    expect(heard).toEqual(['for null', 'let go', `for ${music}`, 'ready 1']);
  },
);

describe('heard over everything', () => {
  beforeEach(() => answer('No music'));

  test('yes is kept', async () => {
    await key('Yes').click();
    await expect.poll(set).toEqual({ music: 'none', hearing: 'heard' });
    await expect.element(key('Yes')).toHaveAttribute('aria-pressed', 'true');
  });

  test('watching instead is kept, and what that means is said', async () => {
    await key("I'll watch instead").click();
    await expect.poll(set).toEqual({ music: 'none', hearing: 'watches' });
    await expect.element(page.getByText(/stays silent and says muted/)).toBeVisible();
  });

  test('too quiet: it says how to raise the phone, plays again and keeps nothing', async () => {
    await key('Louder please').click();
    await expect.element(page.getByText(/on a box or a shelf/)).toBeVisible();
    expect(heard.filter((sound) => sound === 'ready 1')).toHaveLength(2);
    expect((await set()).hearing).toBeNull();
    await key('Play it').click();
    expect(heard.filter((sound) => sound === 'ready 1')).toHaveLength(3);
  });

  test('sound that cannot play says so, and plays as soon as it can', async () => {
    tell(false);
    await expect.element(page.getByRole('alert')).toHaveTextContent('This page cannot sound now.');
    await key('Play it').click();
    expect(heard.filter((sound) => sound === 'ready 1')).toHaveLength(1);
    tell(true);
    await expect.poll(() => heard.filter((sound) => sound === 'ready 1').length).toBe(2);
    expect(page.getByRole('alert').query()).toBeNull();
  });
});

test('it says once that a locked phone sounds no alarm', async () => {
  await expect
    .element(page.getByText('No alarm sounds once the phone is locked.'))
    .toHaveTextContent("For that, use the phone's own clock.");
});

test('the sound is let go with the page', async () => {
  show(shop, <p>Elsewhere</p>);
  await expect.poll(() => heard).toEqual(['for null', 'let go']);
});
