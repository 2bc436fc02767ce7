import type { RefObject } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { confirm } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { KeyWalker } from '#screens/table/key-walker.ts';
import { keyWalkerOf } from '#screens/table/late-panels.ts';

/** All keys of the table gone through by two pedals, for what the main key and Undo do not do. */
export interface KeyWalk {
  isOn: boolean;
  begin: () => void;
  next: () => void;
  /** One key back; before the first it ends. */
  back: () => void;
  pressLast: () => void;
  end: () => void;
}

/** The walk over the keys inside `root`; it ends as soon as a finger takes over. */
export function useKeyWalk(root: RefObject<HTMLElement | null>): KeyWalk {
  const shop = useShop();
  const [walker, setWalker] = useState<KeyWalker | null>(null);
  const latest = useRef(walker);
  latest.current = walker;

  const end = () => {
    latest.current?.end();
    setWalker(null);
  };
  useLayoutEffect(() => {
    if (!walker) return;
    const fingerTakesOver = ({ target }: PointerEvent) => {
      if (!(target instanceof Element && target.closest('nav'))) end();
    };
    document.addEventListener('pointerdown', fingerTakesOver);
    return () => document.removeEventListener('pointerdown', fingerTakesOver);
  }, [walker]);

  const answered = (act: () => void) => () => {
    act();
    confirm(shop);
  };
  return {
    isOn: walker !== null,
    begin: answered(() => {
      void keyWalkerOf().then((walkerIn) => root.current && setWalker(walkerIn(root.current)));
    }),
    next: answered(() => latest.current?.next()),
    back: answered(() => {
      if (!latest.current?.back()) end();
    }),
    pressLast: () => latest.current?.pressLast(),
    end: answered(end),
  };
}
