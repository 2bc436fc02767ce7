import { useEffect, useRef, useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { troubleWords } from '#screens/trouble-words.ts';
import { openedFile } from '#store/copy/file.ts';
import type { Counts } from '#store/copy/header.ts';
import { limits } from '#store/copy/limits.ts';
import { whyOf } from '#store/copy/refusal.ts';
import { noteTest } from '#store/copy/since.ts';
import { readThrough } from '#store/copy/take.ts';

/** What a copy was found to hold. */
export interface Told {
  counts: Counts;
  /** Records that no table would take again. */
  faults: number;
  madeAt: number;
}

/** Where the test of a copy stands. */
type Stage =
  | { at: 'choose' }
  | { at: 'words'; file: File; typed: string }
  | { at: 'reading'; share: number }
  | { at: 'told'; told: Told };

/** Reads a copy to its end. One that is whole is noted as tested. */
export function useTesting() {
  const shop = useShop();
  const { book, clock } = shop;
  const [stage, setStage] = useState<Stage>({ at: 'choose' });
  const [trouble, setTrouble] = useState('');
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  async function test(file: File, words: string | null): Promise<void> {
    if (stop.current) return;
    const controller = new AbortController();
    stop.current = controller;
    const timeUp = new DOMException('The time is up.', 'TimeoutError');
    const timer = setTimeout(() => controller.abort(timeUp), limits.readMs);
    setTrouble('');
    setStage({ at: 'reading', share: 0 });
    const onShare = (share: number) => setStage({ at: 'reading', share });
    try {
      const open = await openedFile(file, words);
      const { counts, faults } = await readThrough(open, { onShare, signal: controller.signal });
      const { at: madeAt, device } = open.header;
      if (faults.length === 0) await noteTest(book, { at: clock.now(), madeAt, device });
      setStage({ at: 'told', told: { counts, faults: faults.length, madeAt } });
      confirm(shop);
    } catch (error) {
      const why = whyOf(error);
      const asks = why === 'needs-words' || why === 'wrong-words';
      setStage(asks ? { at: 'words', file, typed: words ?? '' } : { at: 'choose' });
      if (why === 'needs-words') return;
      setTrouble(troubleWords(error));
      refuse(shop);
    } finally {
      clearTimeout(timer);
      stop.current = null;
    }
  }

  const leave = () => {
    setTrouble('');
    setStage({ at: 'choose' });
  };
  return { stage, trouble, test, leave, stop: () => stop.current?.abort() };
}
