import { useRef } from 'preact/hooks';
import { pictureSize } from '#calc/cavity-layout.ts';
import { type MapView, mapViewIn } from '#calc/map-view.ts';
import { isBetweenLayers, opensAt, type Seat, type Shot, type Stage } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { Warmth as Facts } from '#calc/warmth.ts';
import type { Result } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { evenResults } from '#screens/table/acts.ts';
import { CavityMap, StillMap } from '#screens/table/CavityMap.tsx';
import { Fitted } from '#screens/table/Fitted.tsx';
import { useCellRoom } from '#screens/table/key-size.ts';
import { LayerState } from '#screens/table/late-panels.ts';
import { badCavities, withClosed } from '#screens/table/marks.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { Ribbon } from '#screens/table/Ribbon.tsx';
import { useEvidenceNote } from '#screens/table/use-evidence-note.ts';
import { Warmth } from '#screens/table/Warmth.tsx';
import { clockWords } from '#screens/words.ts';
import { Icon } from '#ui/Icon.tsx';
import { useSize } from '#ui/use-size.ts';
import styles from './Table.module.css';

/** What a card's keys do. */
export interface CardActs {
  fillNow: () => void;
  openNow: () => void;
  /** The layer that was poured last is the last of this shot. */
  lastLayer: () => void;
  skip: (isSkipped: boolean) => void;
  markBad: () => void;
  /** One cell of the live map was pressed. */
  markCavity: (cavity: number) => void;
  checkLater: () => void;
  allGood: () => void;
}

interface Props {
  seat: Seat;
  /** Place on the table, from 1. */
  place: number;
  stage: Stage;
  /** The shot in the mould, or null. */
  shot: Shot | null;
  warmth: Facts;
  /** At most one quiet line. */
  note: string | null;
  /** Half-made marks of the waiting shot. */
  marked: readonly Result[] | null;
  /** A cavity map lies over it where there is no room beside. */
  isBehind: boolean;
  /** The one card that a small phone shows. */
  isFront: boolean;
  now: Instant;
  acts: CardActs;
}

/** How long the edge of a card that has come open goes on asking. */
const freshMs = 10_000;

const labels: Record<Stage, string> = {
  empty: 'ready to fill',
  setting: 'setting',
  open: 'open',
  skipped: 'not in this round',
};

/** One mould of the round: where it is in its walk, how warm it is, and its own keys. */
export function Card(given: Props) {
  const evidence = useEvidenceNote(given.seat);
  const props = { ...given, note: evidence ?? given.note };
  const { seat, place, stage, shot, warmth, now } = props;
  const isCold = warmth.isFlagged && warmth.word === 'cold';
  const number = shot?.number ?? seat.shots.length + 1;
  const [slot, room] = useSize<HTMLDivElement>();
  const view = mapViewIn({ ...room, ...useCellRoom() }, pictureSize(seat.mould.layout));
  const isLive = room.widthPx > 0 && view.parts === 1;
  const logged = seat.shots.filter(({ loggedAt }) => loggedAt !== null).length;
  const loggedBefore = useRef(logged).current;
  const isFresh = stage === 'open' && shot !== null && now - opensAt(shot) < freshMs;
  return (
    <article
      class={styles.card}
      data-state={stage}
      data-cold={isCold || undefined}
      data-behind={props.isBehind || undefined}
      data-live={isLive || undefined}
      data-front={props.isFront || undefined}
      data-fresh={isFresh || undefined}
      aria-label={`Mould ${place}, ${seat.mould.name}, ${labels[stage]}`}
    >
      <header class={styles.cardHead}>
        <span class={styles.badge} role="img" aria-label={`Mould ${place}`}>
          {place}
        </span>
        <h2 class={styles.cardName}>
          <Fitted name={seat.mould.name} />
        </h2>
        <span class={styles.cardShot}>shot {number}</span>
      </header>
      {stage === 'open' && shot && <OpenState {...props} shot={shot} />}
      {stage === 'setting' && shot && isBetweenLayers(seat) && (
        <LayerState {...props} shot={shot} />
      )}
      {stage === 'setting' && shot && !isBetweenLayers(seat) && (
        <SettingState {...props} shot={shot} />
      )}
      {(stage === 'empty' || stage === 'skipped') && <EmptyState {...props} />}
      <Ribbon seat={seat} />
      <div class={styles.mapSlot} ref={slot}>
        {isLive && <CardMap {...props} view={view} />}
      </div>
      {logged > loggedBefore && <i key={logged} class={styles.logged} aria-hidden="true" />}
    </article>
  );
}

/** The map on the card: keys while the mould is open, a picture otherwise. */
function CardMap({ seat, stage, shot, marked, acts, view }: Props & { view: MapView }) {
  const { mould } = seat;
  const last = seat.shots.findLast((other) => other.loggedAt !== null);
  const lastBad = last ? badCavities(last.results) : [];
  if (stage !== 'open' || !shot) return <StillMap mould={mould} lastBad={lastBad} view={view} />;
  const results = withClosed(marked ?? evenResults(seat, 'good'), mould.closed);
  return <CavityMap {...{ mould, results, lastBad, view }} part={0} onPress={acts.markCavity} />;
}

function OpenState({ seat, shot, now, marked, acts }: Props & { shot: Shot }) {
  return (
    <>
      <div class={styles.state}>
        <strong class={styles.count}>OPEN</strong>
        <output class={styles.countUp} role="timer">
          {`+${clockWords((now - opensAt(shot)) / 1_000)}`}
        </output>
      </div>
      {marked && <p class={styles.draft}>{badCavities(marked).length} marked, not saved</p>}
      <div class={styles.keys}>
        <PressKey kind={styles.kBad} onPress={acts.markBad} label={`Mark bad, ${seat.mould.name}`}>
          <Icon of="bad" />
          Mark bad
        </PressKey>
        <PressKey
          kind={styles.kLater}
          onPress={acts.checkLater}
          label={`Check later, ${seat.mould.name}`}
        >
          <Icon of="later" />
          Check later
        </PressKey>
        <PressKey kind={styles.kGood} onPress={acts.allGood} label={`All good, ${seat.mould.name}`}>
          <Icon of="good" />
          All good
        </PressKey>
      </div>
    </>
  );
}

function SettingState({ seat, shot, now, warmth, note, acts }: Props & { shot: Shot }) {
  const totalMs = (shot.setSec ?? 0) * 1_000;
  const leftMs = Math.max(0, opensAt(shot) - now);
  const left = totalMs > 0 ? Math.min(1, leftMs / totalMs) : 0;
  return (
    <>
      <div class={styles.state}>
        <output class={styles.count} role="timer">
          {clockWords(Math.ceil(leftMs / 1_000))}
        </output>
        <Warmth warmth={warmth} />
        <div
          class={styles.drain}
          style={{ '--left': left.toFixed(3) }}
          role="img"
          aria-label={`${Math.round(left * 100)} % of the set time left`}
        />
      </div>
      <div class={styles.keys}>
        <PressKey onPress={acts.openNow} label={`Open now, ${seat.mould.name}`}>
          Open now
        </PressKey>
      </div>
      {note && <p class={styles.note}>{note}</p>}
    </>
  );
}

function EmptyState({ seat, stage, warmth, note, acts }: Props) {
  const name = seat.mould.name;
  return (
    <>
      <div class={styles.state}>
        <strong class={styles.count}>
          {stage === 'skipped' ? 'Sits out' : 'Ready'}
          {stage === 'empty' && <span class={styles.long}> to fill</span>}
        </strong>
        <Warmth warmth={warmth} />
        <p class={styles.say}>
          {stage === 'skipped' ? 'Not in this round' : (note ?? emptyWords(seat, warmth))}
        </p>
      </div>
      <div class={styles.keys}>
        {stage === 'skipped' ? (
          <PressKey onPress={() => acts.skip(false)} label={`Put back, ${name}`}>
            Put back
          </PressKey>
        ) : (
          <>
            <PressKey onPress={() => acts.skip(true)} label={`Skip, ${name}`}>
              Skip
            </PressKey>
            <PressKey onPress={acts.fillNow} label={`Log now, ${name}`}>
              Log now
            </PressKey>
          </>
        )}
      </div>
    </>
  );
}

function emptyWords(seat: Seat, warmth: Facts): string {
  if (warmth.isFlagged && warmth.word === 'cold') {
    return warmth.shots === 0 ? 'Cold: first shot' : 'Still a cold shot';
  }
  const last = seat.shots.at(-1);
  if (!last) return 'First shot';
  const { good, bad, notChecked } = countOf(last.results);
  if (notChecked > 0) return `Last shot: ${notChecked} not checked`;
  return `Last shot: ${good} of ${good + bad} good`;
}
