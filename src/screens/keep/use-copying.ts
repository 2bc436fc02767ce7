import { useEffect, useRef, useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { troubleWords } from '#screens/keep/trouble-words.ts';
import { newestStamp } from '#store/copy/bring.ts';
import { whyOf } from '#store/copy/refusal.ts';
import { noteCopy } from '#store/copy/since.ts';
import { type Copy, takenCopy } from '#store/copy/take.ts';

/** A copy that is good, and what became of it. */
export interface Ready {
  copy: Copy;
  file: File;
  canShare: boolean;
  /** Left the phone. */
  isOut: boolean;
}

const tooBig = 'The copy would be too big to open again. Make it without photos.';

/** Writes a copy, reads it back, and hands it over when the hand says so. */
export function useCopying() {
  const shop = useShop();
  const { book, clock, files, version } = shop;
  const [share, setShare] = useState<number | null>(null);
  const [ready, setReady] = useState<Ready | null>(null);
  const [trouble, setTrouble] = useState('');
  const stop = useRef<AbortController | null>(null);
  const noting = useRef<Parameters<typeof noteCopy>[2] | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  async function make(wish: { withPhotos: boolean; words: string | null }): Promise<void> {
    if (stop.current) return;
    const controller = new AbortController();
    stop.current = controller;
    setTrouble('');
    setShare(0);
    try {
      const at = clock.now();
      const newest = await newestStamp(book);
      const watch = { onShare: setShare, signal: controller.signal };
      const copy = await takenCopy(book, { ...wish, version }, at, watch);
      const name = `warmshot-${dayOf(at, clock.zone())}.warmshot`;
      const file = new File([copy.file], name, { type: 'application/octet-stream' });
      noting.current = { at, newest, isLocked: wish.words !== null };
      setReady({ copy, file, canShare: files.canShare(file), isOut: false });
      confirm(shop);
    } catch (error) {
      setTrouble(whyOf(error) === 'too-big' ? tooBig : troubleWords(error));
      refuse(shop);
    } finally {
      stop.current = null;
      setShare(null);
    }
  }

  async function handOver(how: 'share' | 'save'): Promise<void> {
    if (!ready || !noting.current) return;
    try {
      if (how === 'save') files.save(ready.file);
      else if (!(await files.share(ready.file))) return;
      await noteCopy(book, ready.copy, noting.current);
      setReady({ ...ready, isOut: true });
      setTrouble('');
    } catch {
      setTrouble('This phone did not take the file. Save it instead.');
    }
  }

  return { share, ready, trouble, make, handOver, stop: () => stop.current?.abort() };
}
