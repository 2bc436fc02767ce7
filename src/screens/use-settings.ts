import { useRef, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { changeSettings, type SettingsFacts, settingsOf } from '#store/settings.ts';

/** Says what is to change, given the settings as they stand when its turn has come. */
export type Change = (now: SettingsFacts) => Partial<SettingsFacts>;

/**
 * The settings and how to change them, one change after the other: a key that is pressed faster
 * than the disk writes loses no step. `trouble` is a sentence when the last one was not stored.
 */
export function useSettings() {
  const { book, clock } = useShop();
  const settings = useLive(() => settingsOf(book), ['settings'], 'settings');
  const [trouble, setTrouble] = useState('');
  const line = useRef<Promise<void>>(Promise.resolve());
  const change = (next: Change) => {
    line.current = line.current.then(async () => {
      try {
        await changeSettings(book, next(await settingsOf(book)), clock.now());
        setTrouble('');
      } catch {
        setTrouble('Not saved. Free some space and press again.');
      }
    });
  };
  return { settings, change, trouble };
}
