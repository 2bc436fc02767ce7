import { useEffect, useState } from 'preact/hooks';
import { type GloveFit, gloveFit, type Tap } from '#calc/glove-fit.ts';
import { useShop } from '#live/shop.ts';
import { CheckPage } from '#screens/checks/CheckPage.tsx';
import { TapDots } from '#screens/checks/TapDots.tsx';
import { keySizeWords } from '#screens/key-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useSettings } from '#screens/use-settings.ts';
import { countWords } from '#screens/words.ts';
import { settleOffer } from '#store/offers.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';

type Stage = { at: 'before' } | { at: 'tapping' } | { at: 'felt'; fit: GloveFit } | { at: 'deaf' };

/** Whether this glass feels the gloves, and how large the keys must be for them. */
export function GloveCheckScreen() {
  const { book, clock } = useShop();
  // Once found, it need not be offered any more.
  useEffect(() => settleOffer(book, 'gloves', clock.now()), [book, clock]);
  const { settings, change, trouble } = useSettings();
  const [stage, setStage] = useState<Stage>({ at: 'before' });
  if (!settings) return null;
  if (stage.at === 'tapping') {
    return (
      <TapDots
        onTapped={(taps: readonly Tap[]) => {
          const fit = gloveFit(taps);
          change(() => ({ keySize: fit.keySize }));
          setStage({ at: 'felt', fit });
        }}
        onDeaf={() => setStage({ at: 'deaf' })}
        onSkip={() => setStage({ at: 'before' })}
      />
    );
  }
  const isFirst = stage.at === 'before';
  return (
    <CheckPage title="Glove check">
      <Sheet>
        <div role="status">
          <Words stage={stage} />
        </div>
        <ActKey
          size="main"
          {...(isFirst ? { small: '20 seconds' } : {})}
          onPress={() => setStage({ at: 'tapping' })}
        >
          {isFirst ? 'Tap six dots' : 'Tap six dots again'}
        </ActKey>
        <Refusal says={trouble} />
      </Sheet>
      <Sheet title="Or choose the size yourself">
        <Acts label="Size of the keys">
          {(['usual', 'large', 'largest'] as const).map((keySize) => (
            <ActKey
              key={keySize}
              isPressed={settings.keySize === keySize}
              onPress={() => change(() => ({ keySize }))}
            >
              {keySizeWords[keySize]}
            </ActKey>
          ))}
        </Acts>
        <p>Filled, All good and Undo are always the largest.</p>
        {settings.keySize !== 'usual' && isSmallGlass() && (
          <p>This glass is small: keys on cards grow, keys in panels keep their usual size.</p>
        )}
      </Sheet>
    </CheckPage>
  );
}

/** Where larger keys have no room in the panels: pour-table 4.4, the smallest phones. */
function isSmallGlass(): boolean {
  const { innerWidth, innerHeight } = window;
  return Math.min(innerWidth, innerHeight) < 360 || Math.max(innerWidth, innerHeight) < 700;
}

function Words({ stage }: { stage: Stage }) {
  switch (stage.at) {
    case 'felt':
      return (
        <>
          <p>
            <b>Your gloves work. Keys set to {keySizeWords[stage.fit.keySize]}.</b>
          </p>
          {stage.fit.missed > 0 && (
            <p>{countWords(stage.fit.missed, 'tap')} of 6 would have missed a usual key.</p>
          )}
        </>
      );
    case 'deaf':
      return (
        <p>
          <b>
            This screen can't feel those gloves. Try a bare knuckle, a touch-tip glove, thin
            nitrile, or a foot pedal.
          </b>
        </p>
      );
    default:
      return (
        <p>
          Put on the gloves you pour in. Tap each dot as you would tap a key. The keys of the table
          then fit your hand.
        </p>
      );
  }
}
