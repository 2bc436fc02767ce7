import { useEffect, useRef, useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { troubleWords } from '#screens/trouble-words.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { type Difference, differenceOf } from '#store/copy/difference.ts';
import { type OpenFile, openedFile } from '#store/copy/file.ts';
import { limits } from '#store/copy/limits.ts';
import { whyOf } from '#store/copy/refusal.ts';

/** Where the opening of a file stands. */
export type Stage =
  | { at: 'choose' }
  | { at: 'words'; file: File; typed: string }
  | { at: 'reading' | 'bringing'; share: number }
  | { at: 'told'; file: File; open: OpenFile; difference: Difference }
  | { at: 'done'; difference: Difference };

const partly = ' A part may be in: bring it in once more, or undo it below.';

/** Opens a file step by step; nothing is written before `bring`. */
export function useOpening() {
  const shop = useShop();
  const { book, clock, version } = shop;
  const [stage, setStage] = useState<Stage>({ at: 'choose' });
  const [trouble, setTrouble] = useState('');
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  /** Does one long step, watched and stoppable; what fails leads back to `after`. */
  async function step(
    at: 'reading' | 'bringing',
    doing: (watch: { onShare: (share: number) => void; signal: AbortSignal }) => Promise<Stage>,
    after: (error: unknown) => Stage,
  ): Promise<void> {
    if (stop.current) return;
    const controller = new AbortController();
    stop.current = controller;
    setTrouble('');
    setStage({ at, share: 0 });
    const onShare = (share: number) => setStage({ at, share });
    const timeUp = new DOMException('The time is up.', 'TimeoutError');
    const timer = setTimeout(() => controller.abort(timeUp), limits.readMs);
    try {
      setStage(await doing({ onShare, signal: controller.signal }));
      confirm(shop);
    } catch (error) {
      setStage(after(error));
      if (whyOf(error) !== 'needs-words') {
        setTrouble(`${troubleWords(error)}${at === 'bringing' ? partly : ''}`);
        refuse(shop);
      }
    } finally {
      clearTimeout(timer);
      stop.current = null;
    }
  }

  const read = (file: File, words: string | null) =>
    step(
      'reading',
      async (watch) => {
        const open = await openedFile(file, words);
        return { at: 'told', file, open, difference: await differenceOf(book, open, watch) };
      },
      (error) =>
        ['needs-words', 'wrong-words'].includes(whyOf(error) ?? '')
          ? { at: 'words', file, typed: words ?? '' }
          : { at: 'choose' },
    );

  const bring = ({ file, open, difference }: Extract<Stage, { at: 'told' }>) =>
    step(
      'bringing',
      async (watch) => {
        const about = { name: file.name, at: clock.now(), version };
        return { at: 'done', difference: await broughtIn(book, open, about, watch) };
      },
      () => ({ at: 'told', file, open, difference }),
    );

  const leave = () => {
    setTrouble('');
    setStage({ at: 'choose' });
  };
  return { stage, trouble, read, bring, leave, stop: () => stop.current?.abort() };
}
