import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { SettingsFacts } from '#store/settings.ts';

type Pedal = SettingsFacts['pedal'];

/**
 * Learns the pedal's two keys, one after the other: `asks` says which it waits for; null: none. The
 * first is kept as soon as it is found, for a pedal that has no second switch.
 */
export function useLearning(onLearnt: (next: Pedal) => void) {
  const { keys } = useShop();
  const [asks, setAsks] = useState<'press' | 'undo' | null>(null);
  const [refusal, setRefusal] = useState('');
  const press = useRef<string | null>(null);
  const isLearning = asks !== null;

  useLayoutEffect(() => {
    if (!isLearning) return;
    // The focus would keep Enter and Space, which some pedals send.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    return keys.learn((key) => {
      if (press.current === null) {
        press.current = key;
        onLearnt({ press: [key], undo: [] });
        setAsks('undo');
      } else if (press.current === key) {
        setRefusal('That is the same key. Press the other pedal.');
      } else {
        onLearnt({ press: [press.current], undo: [key] });
        end();
      }
    });
  }, [keys, isLearning]);

  function end() {
    press.current = null;
    setAsks(null);
    setRefusal('');
  }
  return { asks, refusal, begin: () => setAsks('press'), end };
}
