import { useEffect, useRef, useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { cavityMatrix, type LoggedShot } from '#calc/mould-shots.ts';
import { useShop } from '#live/shop.ts';
import { type Change, changeKinds } from '#model/change.ts';
import type { Mould } from '#model/mould.ts';
import { CavityPick } from '#screens/moulds/CavityPick.tsx';
import { changeWords } from '#screens/moulds/change-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { addHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './LogChange.module.css';

/** What a change is begun with. */
export interface ChangeStart {
  kind: Change['kind'];
  cavities: readonly number[];
}

interface Props {
  mould: Mould;
  /** Its shots, oldest first. */
  shots: readonly LoggedShot[];
  start: ChangeStart;
  onDone: () => void;
}

/** Kinds that are done to single cavities, or to the whole mould. */
const withCavities: readonly Change['kind'][] = [
  'vent-opened',
  'vents-cleaned',
  'mould-cleaned',
  'other',
];

/** Logs what was done to a mould, by presses alone: what, where and when. */
export function LogChange({ mould, shots, start, onDone }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [kind, setKind] = useState(start.kind);
  const [picked, setPicked] = useState<readonly number[]>(start.cavities);
  // 0: now; else before so many of the last sessions.
  const [back, setBack] = useState(0);
  const sessions = sessionStarts(shots);
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest' }), []);
  const cavities = withCavities.includes(kind) ? picked : [];
  const at = back === 0 ? clock.now() : (sessions.at(-back) ?? clock.now());
  const log = () =>
    act(async () => {
      const facts = {
        mouldId: mould.id,
        at,
        kind,
        cavities: cavities.toSorted((a, b) => a - b),
        defect: kind.startsWith('vent') ? ('short' as const) : null,
        wasPickedAsWorst: cavities.length > 0 && isWorst(shots, at, cavities),
        text: '',
      };
      await addHead(book, 'changes', facts, clock.now());
      onDone();
      return null;
    });
  const day = (time: number) =>
    dateWords(dayOf(time, clock.zone()), dayOf(clock.now(), clock.zone()));
  return (
    <div ref={box}>
      <Sheet title="Log a change">
        <div class={styles.kinds} role="group" aria-label="What was done">
          {changeKinds.map((one) => (
            <ActKey key={one} isPressed={kind === one} onPress={() => setKind(one)}>
              {changeWords[one].key}
            </ActKey>
          ))}
        </div>
        {withCavities.includes(kind) && (
          <>
            <p>
              {picked.length === 0
                ? 'Which cavities? None pressed: the whole mould.'
                : 'Which cavities?'}
            </p>
            <CavityPick
              mould={mould}
              picked={picked}
              onPress={(cavity) =>
                setPicked(
                  picked.includes(cavity)
                    ? picked.filter((other) => other !== cavity)
                    : [...picked, cavity],
                )
              }
            />
          </>
        )}
        {sessions.length > 0 && (
          <Acts label="When">
            <ActKey isPressed={back === 0} onPress={() => setBack(0)}>
              Today
            </ActKey>
            <ActKey isPressed={back > 0} onPress={() => setBack(Math.max(1, back))}>
              Earlier
            </ActKey>
          </Acts>
        )}
        {back > 0 && (
          <Stepper
            label="Before which session"
            value={day(at)}
            small="before that session's first shot"
            lessName="One session earlier"
            moreName="One session later"
            onLess={() => setBack(Math.min(sessions.length, back + 1))}
            onMore={() => setBack(Math.max(1, back - 1))}
          />
        )}
        <Acts>
          <ActKey onPress={onDone}>Leave it</ActKey>
          <ActKey onPress={() => void log()}>Log it</ActKey>
        </Acts>
        <Refusal says={trouble} />
      </Sheet>
    </div>
  );
}

/** When the first shot of each session with this mould was filled, oldest first. */
function sessionStarts(shots: readonly LoggedShot[]): number[] {
  const starts = new Map<string, number>();
  for (const { sessionId, filledAt } of shots) {
    if (!starts.has(sessionId)) starts.set(sessionId, filledAt);
  }
  return [...starts.values()];
}

/** True when one of the cavities had the largest bad share of all before: it was picked for that. */
function isWorst(shots: readonly LoggedShot[], at: number, cavities: readonly number[]): boolean {
  const matrix = cavityMatrix(
    shots.filter(({ filledAt }) => filledAt < at),
    'bad',
  );
  const shares = (matrix[0] ?? []).map((_, index) => {
    const seen = matrix.flatMap((shot) => shot[index] ?? []);
    return seen.reduce<number>((sum, bad) => sum + bad, 0) / Math.max(1, seen.length);
  });
  const highest = Math.max(0, ...shares);
  return highest > 0 && cavities.some((cavity) => (shares[cavity - 1] ?? 0) >= highest);
}
