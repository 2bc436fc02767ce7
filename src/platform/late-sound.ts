import type { Sound } from '#platform/sound.ts';

/** The three sounds, fetched when somebody first keeps sound at hand: the first paint does without. */
export function lateSound(load: () => Promise<Sound>): Sound {
  let found: Sound | null = null;
  return {
    canSound(tell, music) {
      let isHeld = true;
      let letGo = () => {};
      load().then(
        (sound) => {
          found = sound;
          if (isHeld) letGo = sound.canSound(tell, music);
        },
        () => {
          if (isHeld) tell(false);
        },
      );
      return () => {
        isHeld = false;
        letGo();
      };
    },
    arm: (places) => found?.arm(places),
    hush: (place) => found?.hush(place),
    ready: (place) => found?.ready(place),
    logged: () => found?.logged(),
    wrongWay: () => found?.wrongWay(),
  };
}
