import { useState } from 'preact/hooks';
import { lastShotOf, pouredIn } from '#calc/poured-bait.ts';
import type { Shot, Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { SessionId } from '#model/entry.ts';
import type { Photo } from '#model/photo.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { photoTypes, useAddPhoto } from '#screens/use-add-photo.ts';
import { setDeleted } from '#store/heads.ts';
import styles from './Table.module.css';

/** The camera for the last shot. The clocks run on, and a photo that fails leaves the log alone. */
export function LastPhoto({ table }: { table: Table }) {
  const shot = lastShotOf(table);
  if (!shot || !table.sessionId) return null;
  return <PhotoKey key={shot.id} table={table} sessionId={table.sessionId} shot={shot} />;
}

interface Props {
  table: Table;
  sessionId: SessionId;
  shot: Shot;
}

function PhotoKey({ table, sessionId, shot }: Props) {
  const { book, clock, touch } = useShop();
  const { colourwayId, ...poured } = pouredIn(table, sessionId, shot);
  const { add, trouble, isBusy } = useAddPhoto({ shows: 'bait', colourwayId, poured });
  const [kept, setKept] = useState<Photo | null>(null);
  const seat = table.allSeats.find(({ mould }) => mould.mouldId === shot.mouldId);
  const name = `${seat?.mould.name ?? 'Shot'}, ${shot.number}`;

  if (kept) {
    const takeOff = () =>
      void setDeleted(book, 'photos', kept.id, clock.now(), clock.now()).then(
        () => {
          touch.confirm();
          setKept(null);
        },
        () => touch.refuse(),
      );
    return (
      <PressKey onPress={takeOff}>
        Photo off
        <span class={styles.keySmall}>it is kept</span>
      </PressKey>
    );
  }
  return (
    <label class={`${styles.key} ${styles.photoKey}`}>
      <input
        type="file"
        accept={photoTypes}
        capture="environment"
        aria-label={`Photo of ${name}`}
        onChange={({ currentTarget }) => {
          const [file] = currentTarget.files ?? [];
          currentTarget.value = '';
          if (file) void add(file).then(setKept);
        }}
      />
      Photo
      <span class={styles.keySmall}>
        {isBusy ? 'storing' : trouble ? 'not kept' : `shot ${shot.number}`}
      </span>
      {trouble && (
        <span class="said" role="alert">
          {trouble}
        </span>
      )}
    </label>
  );
}
