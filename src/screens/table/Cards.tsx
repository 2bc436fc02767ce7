import { useState } from 'preact/hooks';
import { isBetweenLayers, type Seat, stageAt, type Table, waitingShot } from '#calc/table.ts';
import { warmthAt } from '#calc/warmth.ts';
import type { Said } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { allSaid, evenResults, filledSaid } from '#screens/table/acts.ts';
import { Card, type CardActs } from '#screens/table/Card.tsx';
import { MarkPanel } from '#screens/table/late-panels.ts';
import { withClosed } from '#screens/table/marks.ts';
import { NumberKeys } from '#screens/table/NumberKeys.tsx';
import { noteOf } from '#screens/table/note.ts';
import type { Marks } from '#screens/table/use-marks.ts';
import type { Walk } from '#screens/table/use-walk.ts';

interface Props {
  table: Table;
  now: Instant;
  marks: Marks;
  walk: Walk;
  onSaid: (said: Said) => void;
}

/** The moulds of the round; the one whose cavities are being marked shows its map instead. */
export function Cards({ table, now, marks, walk, onSaid }: Props) {
  const { open } = marks;
  const map = open && (
    <MarkPanel
      key={open.shot.id}
      {...open}
      walkedTo={walk.cavity}
      place={table.seats.indexOf(open.seat) + 1}
      due={duePlaces(table, open.seat, now)}
      onMark={(results) => marks.keep(open.shot.id, results)}
      onClose={(cavity, isClosed) =>
        onSaid({ kind: 'cavity-closed', mouldId: open.seat.mould.mouldId, cavity, isClosed })
      }
      onCheckLater={() => {
        const results = open.results.map((result) =>
          result === 'closed' ? result : ('not-checked' as const),
        );
        onSaid({ kind: 'opened', shots: [{ shotId: open.shot.id, results }] });
        marks.drop(open.shot.id);
      }}
    />
  );
  const [chosen, setChosen] = useState<MouldId | null>(null);
  const front = frontSeat(table, chosen, now);
  return (
    <>
      {!open && table.seats.length > 1 && (
        <NumberKeys table={table} now={now} front={front} onPress={setChosen} />
      )}
      {open && !table.seats.includes(open.seat) && map}
      {table.seats.map((seat, index) =>
        open?.seat === seat ? (
          map
        ) : (
          <Card
            key={seat.mould.mouldId}
            seat={seat}
            place={index + 1}
            stage={stageAt(seat, now)}
            shot={waitingShot(seat)}
            warmth={warmthAt(table, seat, now)}
            note={noteOf(seat)}
            marked={halfMade(seat, marks)}
            isBehind={open !== null}
            isFront={seat === front}
            now={now}
            acts={actsOf({ table, now, marks, onSaid }, seat)}
          />
        ),
      )}
    </>
  );
}

/** The card that a small phone shows: the one that was chosen, unless another has come open. */
function frontSeat(table: Table, chosen: MouldId | null, now: Instant): Seat | undefined {
  const own = table.seats.find((seat) => seat.mould.mouldId === chosen);
  const open = table.seats.find((seat) => stageAt(seat, now) === 'open');
  if (own && (!open || stageAt(own, now) === 'open')) return own;
  const layer = table.seats.find(isBetweenLayers);
  const empty = table.seats.find((seat) => stageAt(seat, now) === 'empty');
  return open ?? layer ?? empty ?? table.seats[0];
}

function actsOf({ table, now, marks, onSaid }: Omit<Props, 'walk'>, seat: Seat): CardActs {
  const shot = waitingShot(seat);
  const { mouldId } = seat.mould;
  const sayAll = (result: 'good' | 'not-checked') => {
    const said = allSaid([seat], result);
    if (said) onSaid(said);
    if (shot) marks.drop(shot.id);
  };
  return {
    fillNow: () => onSaid(filledSaid(table, [seat], now, 'no-clock')),
    openNow: () => shot && onSaid({ kind: 'clock-stopped', shotId: shot.id }),
    lastLayer: () => shot && onSaid({ kind: 'layers-ended', shotId: shot.id }),
    skip: (isSkipped) => onSaid({ kind: 'skipped', mouldId, isSkipped }),
    markBad: () => shot && marks.openMap(shot.id),
    markCavity: (cavity) => {
      if (!shot || seat.mould.closed.includes(cavity)) return;
      const results = halfMade(seat, marks) ?? evenResults(seat, 'good');
      const usual = seat.mould.defectOrder[0] ?? 'short';
      const marked = results.with(cavity - 1, results[cavity - 1] === usual ? 'good' : usual);
      marks.keepOpen(shot.id, withClosed(marked, seat.mould.closed));
    },
    checkLater: () => sayAll('not-checked'),
    allGood: () => sayAll('good'),
  };
}

function halfMade(seat: Seat, marks: Marks) {
  const shot = waitingShot(seat);
  return shot ? marks.halfMade(shot.id) : null;
}

/** Places of the other moulds that are open now. */
export function duePlaces(table: Table, but: Seat, now: Instant): number[] {
  return table.seats.flatMap((seat, index) =>
    seat !== but && stageAt(seat, now) === 'open' ? [index + 1] : [],
  );
}
