import { useEffect, useRef, useState } from 'preact/hooks';
import type { Tap } from '#calc/glove-fit.ts';
import { useShop } from '#live/shop.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './TapDots.module.css';

interface Props {
  onTapped: (taps: readonly Tap[]) => void;
  /** Nothing was felt for twenty seconds. */
  onDeaf: () => void;
  onSkip: () => void;
}

/** Where the dots lie, as shares of the glass: all over it, as a table's keys do. */
const dots = [
  { across: 0.22, down: 0.16 },
  { across: 0.78, down: 0.34 },
  { across: 0.5, down: 0.6 },
  { across: 0.8, down: 0.84 },
  { across: 0.2, down: 0.78 },
  { across: 0.55, down: 0.22 },
];
const deafMs = 20_000;

/** One dot after the other to be tapped; the whole glass feels, so that a miss is measured too. */
export function TapDots({ onTapped, onDeaf, onSkip }: Props) {
  const { clock } = useShop();
  const mark = useRef<HTMLElement>(null);
  const [taps, setTaps] = useState<readonly Tap[]>([]);
  const lastAt = useRef(clock.now());
  useEffect(
    () =>
      clock.every(500, () => {
        if (clock.realMs(clock.now() - lastAt.current) >= deafMs) onDeaf();
      }),
    [clock],
  );

  function tap(event: PointerEvent) {
    const box = mark.current?.getBoundingClientRect();
    if (!box || !event.isPrimary) return;
    lastAt.current = clock.now();
    const next = [
      ...taps,
      {
        dxPx: event.clientX - (box.left + box.width / 2),
        dyPx: event.clientY - (box.top + box.height / 2),
      },
    ];
    setTaps(next);
    if (next.length === dots.length) onTapped(next);
  }

  const dot = dots[Math.min(taps.length, dots.length - 1)] ?? { across: 0.5, down: 0.5 };
  return (
    <main class={styles.page}>
      <h1 class={styles.words} aria-live="polite">
        Tap the dot: {Math.min(taps.length + 1, dots.length)} of {dots.length}
      </h1>
      <div class={styles.glass} onPointerDown={tap}>
        <i
          class={styles.dot}
          ref={mark}
          style={{ '--across': dot.across, '--down': dot.down }}
          aria-hidden="true"
        />
      </div>
      <ActKey size="big" onPress={onSkip}>
        Leave it out
      </ActKey>
    </main>
  );
}
