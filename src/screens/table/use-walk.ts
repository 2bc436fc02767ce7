import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { confirm } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { Result, ShotId } from '#model/entry.ts';
import type { Marks } from '#screens/table/use-marks.ts';

/** How many of a mould's usual defects a pedal goes round through. */
const defectsRound = 4;

/** The open map walked cavity by cavity, for a person who has pedals and no free hand. */
export interface Walk {
  /** The cavity that is outlined; null: all were walked, or the map is not walked. */
  cavity: number | null;
  begin: (shotId: ShotId) => void;
  next: () => void;
  /** One cavity back; false: this was the first. */
  back: () => boolean;
  /** Marks the cavity that a foot came down on: its press has gone on to the next one. */
  markLast: () => void;
}

/**
 * Walks the map that is open: a press goes on, a held press marks with the usual defect, and again
 * with the next one. It ends with the map, or as soon as a finger takes over.
 */
export function useWalk(marks: Marks): Walk {
  const shop = useShop();
  const [walked, setWalked] = useState<{ shotId: ShotId; step: number } | null>(null);
  const { open } = marks;
  const isOn = walked !== null && walked.shotId === open?.shot.id;
  const cavities = open ? workingOf(open.results) : [];
  const step = isOn ? walked.step : cavities.length;
  const latest = useRef({ open, cavities, step });
  latest.current = { open, cavities, step };

  useLayoutEffect(() => {
    if (!isOn) return;
    const fingerTakesOver = ({ target }: PointerEvent) => {
      if (!(target instanceof Element && target.closest('nav'))) setWalked(null);
    };
    document.addEventListener('pointerdown', fingerTakesOver);
    return () => document.removeEventListener('pointerdown', fingerTakesOver);
  }, [isOn]);

  const go = (to: number) => {
    setWalked((now) => now && { ...now, step: to });
    confirm(shop);
  };
  return {
    cavity: isOn ? (cavities[step] ?? null) : null,
    begin: (shotId) => setWalked({ shotId, step: 0 }),
    next: () => go(Math.min(latest.current.step + 1, latest.current.cavities.length)),
    back: () => {
      const now = latest.current;
      if (!isOn || now.step === 0) return false;
      go(now.step - 1);
      return true;
    },
    markLast: () => {
      const now = latest.current;
      const cavity = now.cavities[now.step - 1];
      if (!isOn || !now.open || cavity === undefined) return;
      const { results, seat, shot } = now.open;
      const round: Result[] = ['good', ...seat.mould.defectOrder.slice(0, defectsRound)];
      const at = round.indexOf(results[cavity - 1] ?? 'good');
      marks.keep(shot.id, results.with(cavity - 1, round[at + 1] ?? 'good'));
      confirm(shop);
    },
  };
}

/** The cavities that are open to be marked, in counting order. */
function workingOf(results: readonly Result[]): number[] {
  return results.flatMap((result, index) => (result === 'closed' ? [] : [index + 1]));
}
