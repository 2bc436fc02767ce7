import { useEffect, useRef, useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { troubleWords } from '#screens/trouble-words.ts';
import { newestStamp } from '#store/copy/bring.ts';
import { whyOf } from '#store/copy/refusal.ts';
import { noteCopy } from '#store/copy/since.ts';
import { type Copy, takenCopy } from '#store/copy/take.ts';

/** A copy that is good, and what became of it. */
export interface Ready {
  copy: Copy;
  file: File;
  canShare: boolean;
  /**
   * Whether it has left: a share sheet says so, a download does not. `asked`: the person is asked to
   * look; `missing`: it is not where it should be.
   */
  out: 'no' | 'asked' | 'missing' | 'out';
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

  /** The copy that was made; null: it was not, and `trouble` says why. */
  async function make(wish: { withPhotos: boolean; words: string | null }): Promise<Ready | null> {
    if (stop.current) return null;
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
      const made: Ready = { copy, file, canShare: files.canShare(file), out: 'no' };
      setReady(made);
      confirm(shop);
      return made;
    } catch (error) {
      setTrouble(whyOf(error) === 'too-big' ? tooBig : troubleWords(error));
      refuse(shop);
      return null;
    } finally {
      stop.current = null;
      setShare(null);
    }
  }

  async function handOver(how: 'share' | 'save', one: Ready | null = ready): Promise<void> {
    if (!one) return;
    try {
      if (how === 'save') {
        files.save(one.file);
        setReady({ ...one, out: 'asked' });
        setTrouble('');
      } else if (await files.share(one.file)) await noteOut(one);
    } catch (error) {
      // Making it took longer than a press lasts: the share key is there for another one.
      if (one !== ready && error instanceof DOMException && error.name === 'NotAllowedError')
        return;
      setTrouble('This phone did not take the file. Save it instead.');
    }
  }

  /** A copy counts from when it is known to be elsewhere than in this page. */
  async function noteOut(one: Ready): Promise<void> {
    if (!noting.current) return;
    await noteCopy(book, one.copy, noting.current);
    setReady({ ...one, out: 'out' });
    setTrouble('');
  }

  async function found(isThere: boolean): Promise<void> {
    if (!ready) return;
    if (!isThere) return setReady({ ...ready, out: 'missing' });
    await noteOut(ready).catch(() => setTrouble('Not noted. Free some space and press again.'));
  }

  return { share, ready, trouble, make, handOver, found, stop: () => stop.current?.abort() };
}
