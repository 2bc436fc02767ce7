import { useLayoutEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { CheckPage } from '#screens/checks/CheckPage.tsx';
import { useLearning } from '#screens/checks/use-learning.ts';
import { keysWords } from '#screens/key-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useSettings } from '#screens/use-settings.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './PedalCheckScreen.module.css';

type Pedal = SettingsFacts['pedal'];

/** Learns the keys that a foot pedal sends, and lets them be tried. */
export function PedalCheckScreen() {
  const { settings, change, trouble } = useSettings();
  const pedal = settings?.pedal ?? null;
  const { asks, refusal, begin, end } = useLearning((next) => change(() => ({ pedal: next })));
  if (!settings) return null;
  return (
    <CheckPage title="Pedal check">
      <Sheet title="Your pedal">
        <dl class={styles.keys}>
          <dt>Filled, All good, Save</dt>
          <dd>{keysWords(pedal?.press ?? [], 'usual keys')}</dd>
          <dt>Undo, Back</dt>
          <dd>{keysWords(pedal?.undo ?? [], 'usual keys')}</dd>
        </dl>
        <p role="status">
          <b>
            {asks === 'press' && 'Press the pedal for Filled and All good now.'}
            {asks === 'undo' && 'Now press the pedal for Undo.'}
          </b>
        </p>
        <Refusal says={refusal} />
        {asks === null ? (
          <ActKey size="main" onPress={begin}>
            Find my pedal's keys
          </ActKey>
        ) : (
          <ActKey onPress={end}>
            {asks === 'undo' ? 'It has no second switch' : 'Leave it as it is'}
          </ActKey>
        )}
        {pedal && asks === null && (
          <ActKey onPress={() => change(() => ({ pedal: null }))}>Back to the usual keys</ActKey>
        )}
        <Refusal says={trouble} />
      </Sheet>
      {asks === null && <TryOut pedal={pedal} />}
      <Sheet title="Before you buy one">
        <p>Pedals and page turners that act as a keyboard work here.</p>
        <p>Camera-shutter remotes send volume keys. A page cannot see those.</p>
      </Sheet>
    </CheckPage>
  );
}

const meanings = {
  press: 'Filled, All good or Save',
  undo: 'Undo or Back',
  held: 'Held: mark the bad ones, or press a key',
  'undo-held': 'Held: go through the keys',
  1: 'All good for mould 1',
  2: 'All good for mould 2',
  3: 'All good for mould 3',
} as const;

/** Says what the pedal means, press by press. */
function TryOut({ pedal }: { pedal: Pedal }) {
  const { keys } = useShop();
  const [tried, setTried] = useState<{ word: string; count: number } | null>(null);
  useLayoutEffect(
    () =>
      keys.listen(pedal, (means) =>
        setTried((last) => {
          const word = meanings[means];
          return { word, count: last?.word === word ? last.count + 1 : 1 };
        }),
      ),
    [keys, pedal],
  );
  return (
    <Sheet title="Try it">
      <p class={styles.tried} role="status">
        {tried
          ? `${tried.word}${tried.count > 1 ? `, ${tried.count} times` : ''}`
          : 'Press a pedal.'}
      </p>
      <p>
        Usual keys: Page Down, right, down, Enter and Space press the main key. Page Up, left and up
        undo. 1, 2 and 3 are All good for that mould.
      </p>
      <p>Hold it down on All good to mark bad ones: a press goes on, a held press marks.</p>
      <p>
        Hold the one for Undo to go through all keys of the table: a press goes on, a held press
        presses that key. Hold Undo again to stop. This needs a pedal that repeats while it is down.
      </p>
    </Sheet>
  );
}
