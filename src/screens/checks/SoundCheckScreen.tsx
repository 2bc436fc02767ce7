import { useEffect, useRef, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { CheckPage } from '#screens/checks/CheckPage.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useSettings } from '#screens/use-settings.ts';
import { settleOffer } from '#store/offers.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './SoundCheckScreen.module.css';

const places = [
  ['this-phone', 'This phone'],
  ['elsewhere', 'Somewhere else'],
  ['none', 'No music'],
] as const;

const louder = [
  'Turn the volume up while the sound plays: music and calls have their own.',
  'Turn off the silent switch, if the phone has one.',
  'Stand the phone on a box or a shelf, its speaker towards you. Nothing soft under it.',
  'Take it out of its bag or pouch.',
];

/** Where the music plays, and whether the ready sound is heard over it. */
export function SoundCheckScreen() {
  const { book, clock } = useShop();
  // Once found, it need not be offered any more.
  useEffect(() => settleOffer(book, 'sound', clock.now()), [book, clock]);
  const { settings, change, trouble } = useSettings();
  const music = settings?.music ?? null;
  const { canSound, play, playSoon } = useReadySound(music);
  const [isTooQuiet, setIsTooQuiet] = useState(false);
  if (!settings) return null;
  const { hearing } = settings;
  return (
    <CheckPage title="Sound check">
      <Sheet title="Where does your music play?">
        <div class={styles.choice} role="group" aria-label="Music">
          {places.map(([place, word]) => (
            <ActKey
              key={place}
              isPressed={music === place}
              onPress={() => {
                change(() => ({ music: place }));
                // The sound is taken up anew for other music, and played then.
                if (place === music) play();
                else playSoon();
              }}
            >
              {word}
            </ActKey>
          ))}
        </div>
        <Refusal says={trouble} />
      </Sheet>
      {music !== null && (
        <Sheet title="Hear that over everything?">
          <p>
            One pulse: mould 1 is ready. Two pulses: mould 2. It rings until you touch the glass.
          </p>
          {canSound === false && <p role="alert">This page cannot sound now.</p>}
          <ActKey onPress={play}>Play it</ActKey>
          <div class={styles.choice} role="group" aria-label="Do you hear it?">
            <ActKey
              isPressed={hearing === 'heard'}
              onPress={() => change(() => ({ hearing: 'heard' }))}
            >
              Yes
            </ActKey>
            <ActKey
              onPress={() => {
                setIsTooQuiet(true);
                play();
              }}
            >
              Louder please
            </ActKey>
            <ActKey
              isPressed={hearing === 'watches'}
              onPress={() => change(() => ({ hearing: 'watches' }))}
            >
              I'll watch instead
            </ActKey>
          </div>
          {hearing === 'watches' && <p>The table stays silent and says muted. Cards turn amber.</p>}
          {isTooQuiet && (
            <ul class={styles.louder}>
              {louder.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
        </Sheet>
      )}
      <Sheet title="When the phone is locked">
        <p>No alarm sounds once the phone is locked. For that, use the phone's own clock.</p>
      </Sheet>
    </CheckPage>
  );
}

/** Whether sound can play, null: not known yet; and the ready sound, as soon as it can. */
function useReadySound(music: SettingsFacts['music']) {
  const { sound } = useShop();
  const [canSound, setCanSound] = useState<boolean | null>(null);
  const isWanted = useRef(false);
  const playWanted = () => {
    if (isWanted.current) sound.ready(1);
    isWanted.current = false;
  };
  useEffect(() => {
    const letGo = sound.canSound((can) => {
      setCanSound(can);
      if (can) playWanted();
    }, music);
    return () => {
      setCanSound(null);
      letGo();
    };
  }, [sound, music]);
  const playSoon = () => {
    isWanted.current = true;
  };
  const play = () => {
    playSoon();
    if (canSound) playWanted();
  };
  return { canSound, play, playSoon };
}
