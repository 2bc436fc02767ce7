import { useEffect, useRef, useState } from 'preact/hooks';
import { isBetweenLayers, opensAt, type Table, waitingShot } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { ShotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { SettingsFacts } from '#store/settings.ts';

/** A mould that rings when its clock runs out. */
interface Due {
  place: number;
  shotId: ShotId;
  at: Instant;
}

/** A touch that comes this soon after a mould is ready was on its way before, and answers nothing. */
const tooSoonMs = 1_000;

/**
 * Rings for every mould whose clock runs out, until somebody touches the glass or the pedal. Says
 * whether sound can play now; null: not known yet.
 */
export function useReadyBell(table: Table, settings: SettingsFacts): boolean | null {
  const { clock, sound } = useShop();
  const { music, hearing } = settings;
  const [canSound, setCanSound] = useState<boolean | null>(null);
  const answered = useRef(new Set<ShotId>());
  const dues = useRef<readonly Due[]>([]);
  dues.current = duesOf(table);
  const waiting = dues.current.map(({ place, shotId, at }) => `${place} ${shotId} ${at}`).join();

  useEffect(() => {
    if (hearing !== 'watches') return sound.canSound(setCanSound, music);
    setCanSound(false);
  }, [sound, music, hearing]);

  useEffect(() => {
    const arm = () =>
      sound.arm(
        dues.current
          .filter(({ shotId }) => !answered.current.has(shotId))
          .map(({ place, at }) => ({ place, inMs: clock.realMs(at - clock.now()) })),
      );
    arm();
    // The clock of the sound stands still while the page sleeps.
    document.addEventListener('visibilitychange', arm);
    return () => document.removeEventListener('visibilitychange', arm);
  }, [sound, clock, waiting, canSound]);

  useEffect(() => {
    const answer = () => {
      for (const { place, shotId, at } of dues.current) {
        if (clock.realMs(clock.now() - at) < tooSoonMs || answered.current.has(shotId)) continue;
        answered.current.add(shotId);
        sound.hush(place);
      }
    };
    document.addEventListener('pointerdown', answer, true);
    document.addEventListener('keydown', answer, true);
    return () => {
      document.removeEventListener('pointerdown', answer, true);
      document.removeEventListener('keydown', answer, true);
      sound.arm([]);
    };
  }, [sound, clock]);
  return canSound;
}

/** Clocks that run or ran out: not those that were ended by hand or never ran. */
function duesOf(table: Table): Due[] {
  return table.seats.flatMap((seat, index) => {
    const shot = waitingShot(seat);
    if (!shot || shot.clockStoppedAt !== null || shot.setSec === null) return [];
    if (isBetweenLayers(seat)) return [];
    return [{ place: index + 1, shotId: shot.id, at: opensAt(shot) }];
  });
}
