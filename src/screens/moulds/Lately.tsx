import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { mouldDrift, type NormalFrom } from '#calc/mould-drift.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import { useShop } from '#live/shop.ts';
import { useWorked } from '#live/use-worked.ts';
import { type Change, driftSeen } from '#model/change.ts';
import type { MouldId } from '#model/mould.ts';
import { noNormalWords, type Watch } from '#screens/moulds/lately-words.ts';
import { NormalWords } from '#screens/moulds/NormalWords.tsx';
import { Watched } from '#screens/moulds/Watched.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { addHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Fold } from '#ui/Fold.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  mouldId: MouldId;
  shots: readonly LoggedShot[];
  /** When something was done to the mould last. */
  lastDoneAt: number;
  /** When the person last said that a drift was seen; null: never. */
  seen: Change | null;
}

/** Whether the mould runs as usual lately; a drift that was seen is counted no longer. */
export function Lately({ mouldId, shots, lastDoneAt, seen }: Props) {
  const [from, setFrom] = useState<NormalFrom>('before');
  const seenAt = seen?.at ?? 0;
  const found = useWorked(
    () => mouldDrift(shots, lastDoneAt, from, seenAt),
    [shots, lastDoneAt, from, seenAt],
  );
  if (!found || shots.length === 0) return null;
  return (
    <Sheet title="Lately">
      {found.kind === 'watched' ? (
        <>
          <Watched found={found} />
          <Seen mouldId={mouldId} found={found} seen={seen} />
        </>
      ) : (
        <p>{noNormalWords(found)}</p>
      )}
      <Fold says="What is normal">
        {found.kind === 'watched' && <NormalWords found={found} />}
        <p>Normal is taken from:</p>
        <Acts label="Normal is taken from">
          <ActKey isPressed={from === 'before'} onPress={() => setFrom('before')}>
            Shots before these
          </ActKey>
          <ActKey isPressed={from === 'first'} onPress={() => setFrom('first')}>
            The first 30
          </ActKey>
        </Acts>
      </Fold>
    </Sheet>
  );
}

/** One press says that a drift was seen, one takes that back. */
function Seen({ mouldId, found, seen }: { found: Watch } & Pick<Props, 'mouldId' | 'seen'>) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const write = (doing: (at: number) => Promise<unknown>) =>
    act(async () => {
      await doing(clock.now());
      return null;
    });
  const note = (at: number) => {
    const nothing = { cavities: [], defect: null, wasPickedAsWorst: false, text: '' };
    return addHead(book, 'changes', { mouldId, at, kind: driftSeen, ...nothing }, at);
  };
  const isOld = seen !== null && seen.at <= (found.watched[0]?.filledAt ?? 0);
  const day = (at: number) => dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone()));
  return (
    <>
      {seen && !isOld && (
        <p>Seen {day(seen.at)}: only shots after that count. Those before stay in the picture.</p>
      )}
      <Acts>
        {found.drift.kind !== 'as-usual' && (
          <ActKey label="Seen: count anew from now" onPress={() => void write(note)}>
            Seen
          </ActKey>
        )}
        {seen && !isOld && (
          <ActKey
            label={`Take it back: seen ${day(seen.at)}`}
            onPress={() => void write((at) => setDeleted(book, 'changes', seen.id, at, at))}
          >
            Take it back
          </ActKey>
        )}
      </Acts>
      <Refusal says={trouble} />
    </>
  );
}
