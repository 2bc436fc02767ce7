import type { RefObject } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { shortened } from '#screens/table/shortened.ts';
import styles from './Table.module.css';

/** Fewer letters tell no name from another. */
const leastLetters = 4;

/**
 * A name in the room there is for it, on as many lines as the sheet allows: whole wherever it fits, else
 * as much of its beginning and its end as does.
 */
export function useFitted(name: string): [RefObject<HTMLSpanElement | null>, string] {
  const holder = useRef<HTMLSpanElement>(null);
  const [most, setMost] = useState(Number.POSITIVE_INFINITY);
  useLayoutEffect(() => {
    const box = holder.current;
    if (!box) return;
    const measure = () => setMost(mostIn(box, name));
    measure();
    // Its key is what has a size of its own; a frame later, so that no size is changed while sizes are told.
    let frame = 0;
    const watcher = new ResizeObserver(() => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(measure);
    });
    watcher.observe(box.closest('button, p') ?? box);
    return () => {
      cancelAnimationFrame(frame);
      watcher.disconnect();
    };
  }, [name]);
  return [holder, shortened(name, most)];
}

/** How many letters fit; the text is left with them. */
function mostIn(box: HTMLElement, name: string): number {
  const text = box.lastElementChild?.firstChild;
  if (!text || box.clientWidth === 0) return name.length;
  // A line more is a whole line higher; letters may hang out of the last one by a hair.
  const hairPx = Number.parseFloat(getComputedStyle(box).fontSize) / 2;
  const fits = (letters: number) => {
    text.nodeValue = shortened(name, letters);
    return box.scrollWidth <= box.clientWidth && box.scrollHeight < box.clientHeight + hairPx;
  };
  let most = name.length;
  while (!fits(most) && most > leastLetters) most -= 1;
  return most;
}

interface Props {
  name: string;
  /** What stands before the name and is never shortened. */
  before?: string;
  /** From the table's sheet: the name alone, without what stands before it. */
  kind?: string | undefined;
}

/** The name itself; where it was shortened a screen reader hears it whole. */
export function Fitted({ name, before, kind }: Props) {
  const [holder, shown] = useFitted(name);
  return (
    <>
      <span class={styles.fitted} ref={holder}>
        {before}
        <span class={kind}>{shown}</span>
      </span>
      {shown !== name && <span class="said"> {name}</span>}
    </>
  );
}
