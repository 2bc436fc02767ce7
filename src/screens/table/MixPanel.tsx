import { useEffect, useState } from 'preact/hooks';
import { stillToPour } from '#calc/colour-queue.ts';
import { byId, calledNow } from '#calc/names-now.ts';
import { withBatches } from '#calc/pot-mix.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { PhotoId } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import { PhotoPicture } from '#screens/PhotoPicture.tsx';
import { turnSays, turnWords } from '#screens/table/colour-words.ts';
import { DosesPanel } from '#screens/table/DosesPanel.tsx';
import { HowMuch } from '#screens/table/HowMuch.tsx';
import { useIsLarge } from '#screens/table/key-size.ts';
import { MakePanel } from '#screens/table/MakePanel.tsx';
import { besideOf, type Given, madeUp, swatchesOf } from '#screens/table/made-up.ts';
import { mixFor, type Place } from '#screens/table/mix.ts';
import { NameKey } from '#screens/table/NameKey.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { roundPours } from '#screens/table/round.ts';
import { mixVolumeFrom, type VolumeFrom } from '#screens/table/where-from.ts';
import { volumeWords } from '#screens/volumes.ts';
import { batchesOf } from '#store/batches.ts';
import { freshId } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';
import { keepImprovised } from '#store/improvised.ts';
import { lastVolumeOf } from '#store/last-time.ts';
import { lossOf } from '#store/loss.ts';
import { newestOf } from '#store/newest-mixes.ts';
import { newestPhotos, photoTables } from '#store/photos.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { mixOf } from '#store/start.ts';
import { keepRunningMixes } from '#store/told-mixes.ts';
import { usualPlastisol } from '#store/usual-plastisol.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  pot: Pot | null;
  /** It stands apart from the pots there are: no side of a laminate. */
  isApart?: boolean;
  settings: SettingsFacts;
  now: Instant;
  onSaid: (said: Said) => void;
}

type Inside = { at: 'choose' } | { at: 'make' } | { at: 'doses'; colourway: Colourway; mix: Mix };

/**
 * A fresh mix: which colour, how much, and whether it is the only one or a side of a laminate; then
 * what goes into the cup. A colour without a mix is logged as it is.
 */
export function MixPanel({ table, pot, isApart = false, settings, now, onSaid }: Props) {
  const { book, clock } = useShop();
  const colourways = useLive(() => headsOf(book, 'colourways'), ['colourways'], 'all');
  const mixes = useLive(() => headsOf(book, 'mixes'), ['mixes'], 'all');
  const shelf = useLive(
    async () => {
      const materials = await headsOf(book, 'materials');
      return { materials, usualId: await usualPlastisol(book, materials) };
    },
    ['materials', 'entries', 'columns'],
    'shelf',
  );
  const materials = shelf?.materials;
  const batches = useLive(
    () => batchesOf(book, { at: clock.now(), zone: table.zone }, 2),
    ['entries', 'sealed'],
    table.zone,
  );
  const [inside, setInside] = useState<Inside>({ at: 'choose' });
  const [place, setPlace] = useState(() => firstPlace(table, pot, isApart));
  const [page, setPage] = useState(0);
  // Six keys fit the smallest glass, four when they are large: the colours, New colour and More.
  const room = useIsLarge() ? 4 : 6;
  const perPage = (colourways ?? []).length < room ? room - 1 : room - 2;
  const learnt = useLive(() => lossOf(book), ['columns'], 'loss');
  const photos = useLive(() => newestPhotos(book, 'taken'), photoTables, 'newest');
  const isFirst = table.pots.length === 0;
  const earlierMl = useLive(
    async () => (isFirst ? await lastVolumeOf(book, 'pot-mixed') : null),
    ['sealed'],
    `${isFirst}`,
  );
  const { lastMl, from } = presetOf(table, earlierMl ?? null, settings);
  const [chosenMl, setVolumeMl] = useState<number | null>(null);
  const volumeMl = chosenMl ?? lastMl;
  const unit = settings.volumeUnit;
  const round = roundPours(table, place === 'only' ? 1 : 2);
  const next = stillToPour(table.planned, table.pots);
  const byUse = inTurn(colourways ?? [], table, next);
  const shown = byUse.slice(page * perPage, (page + 1) * perPage);

  // What the device would not keep of an earlier mix is kept now, if it can.
  useEffect(() => void keepRunningMixes(book).catch(() => {}), [book]);

  const plain = (colourway: Colourway | null) =>
    mixFor(mixOf(colourway, volumeMl, table.pots.length + 1, now), place);
  const say = (said: SaidOf<'pot-mixed'>) => onSaid(withBatches(said, batches ?? []));

  function mix(colourway: Colourway) {
    const own = newestOf(mixes ?? []).get(colourway.id);
    if (own) setInside({ at: 'doses', colourway, mix: calledNow(own, byId(materials ?? [])) });
    else say(plain(colourway));
  }

  /** Made up on the spot: kept as a mix of its own, which the person may name later. */
  function made(given: Given) {
    const said = plain(null);
    const id = freshId<MixId>(now);
    const up = madeUp(said, given, { id, beside, swatches: swatchesOf(materials) });
    if (!up) return say(said);
    // Refused, it is kept from the log that holds its doses: with the next mix, or when the session ends.
    void keepImprovised(book, id, up.body, now).catch(() => {});
    say(up.said);
  }

  const isOfThePair = !isApart && (pot?.slot ?? 0) <= 1;
  const beside = isOfThePair ? besideOf(table, place) : null;
  if (inside.at === 'make') {
    const name = place === 'only' ? `Pot ${table.pots.length + 1}` : `Side ${place}`;
    return (
      <MakePanel
        name={name}
        batch={batches?.[0] ?? ''}
        first={[]}
        volumeMl={volumeMl}
        others={mixes ?? []}
        usualId={shelf?.usualId ?? null}
        onMixed={(doses, plastisolId) => made({ doses, plastisolId })}
      />
    );
  }
  if (inside.at === 'doses') {
    return (
      <DosesPanel
        mix={inside.mix}
        mixed={plain(inside.colourway)}
        volumeMl={volumeMl}
        volumeSays={mixVolumeFrom(volumeWords(volumeMl, unit), volumeMl === lastMl, from)}
        table={table}
        learnt={learnt}
        batches={batches ?? []}
        mixes={mixes ?? []}
        swatches={swatchesOf(materials)}
        settings={settings}
        onMixed={onSaid}
      />
    );
  }

  // Not before the mixes are there: a press must know what it is a press on.
  if (!mixes || !materials || !batches || earlierMl === undefined)
    return <section class={styles.panel} aria-label="New mix" />;
  return (
    <section class={styles.panel} aria-label="New mix">
      <HowMuch
        volumeMl={volumeMl}
        onVolume={setVolumeMl}
        settings={settings}
        small={place === 'only' ? '' : 'each pot'}
        says={mixVolumeFrom(volumeWords(volumeMl, unit), volumeMl === lastMl, from)}
        round={round}
        learnt={learnt}
      />
      <div class={styles.keyRow} role="group" aria-label="Which pot">
        {(['only', 'A', 'B'] as const).map((one) => (
          <PressKey key={one} isPressed={place === one} onPress={() => setPlace(one)}>
            {one === 'only' ? 'Only pot' : `Side ${one}`}
          </PressKey>
        ))}
      </div>
      <div class={styles.keyGrid} role="group" aria-label="Colour">
        {shown.map((colourway) => (
          <NameKey
            key={colourway.id}
            name={colourway.name}
            before={turnWords(colourway, next)}
            says={turnSays(colourway, next)}
            onPress={() => mix(colourway)}
          >
            <Look colourway={colourway} photoId={photos?.get(colourway.id)?.id ?? null} />
          </NameKey>
        ))}
        <PressKey onPress={() => setInside({ at: 'make' })}>New colour</PressKey>
        {byUse.length > perPage && (
          <PressKey onPress={() => setPage((page + 1) % Math.ceil(byUse.length / perPage))}>
            More
          </PressKey>
        )}
      </div>
    </section>
  );
}

/** Of two pots the one that is held; a side that stands alone waits for its other side. */
function firstPlace({ potsInUse }: Table, pot: Pot | null, isApart: boolean): Place {
  if (potsInUse.length > 1 && pot) return pot.slot === 0 ? 'A' : 'B';
  const [own] = potsInUse;
  if (isApart || !own || own.isAlone || own.slot > 1) return 'only';
  return own.slot === 0 ? 'B' : 'A';
}

/** The real bait where it was photographed, else the look the colour was given; of one size, so that nothing moves. */
function Look({ colourway, photoId }: { colourway: Colourway; photoId: PhotoId | null }) {
  if (photoId) {
    return (
      <span class={styles.keyPhoto} aria-hidden="true">
        <PhotoPicture id={photoId} alt="" />
      </span>
    );
  }
  return (
    <span class={styles.swatches} aria-hidden="true">
      {colourway.sides.map((side) => (
        <i key={side.name} style={{ '--swatch': side.swatch }} />
      ))}
    </span>
  );
}

/** The volume to begin with: that of the last mix, tonight or in an earlier session. */
function presetOf(
  table: Table,
  earlierMl: number | null,
  { potMl }: SettingsFacts,
): { lastMl: number; from: VolumeFrom } {
  const first = table.pots.at(-1)?.course.find((event) => event.kind === 'filled');
  if (first?.kind === 'filled') return { lastMl: first.volumeMl, from: 'tonight' };
  if (earlierMl !== null) return { lastMl: earlierMl, from: 'earlier' };
  return { lastMl: potMl, from: 'settings' };
}

/** What is still to come tonight, in its order; then tonight's colours, the newest first; then the rest. */
function inTurn(
  colourways: readonly Colourway[],
  table: Table,
  next: readonly ColourwayId[],
): Colourway[] {
  const use = (one: Colourway) => table.pots.findLastIndex((pot) => pot.colourwayId === one.id);
  const turn = ({ id }: Colourway) => (next.includes(id) ? next.indexOf(id) : next.length);
  return colourways.toReversed().sort((a, b) => turn(a) - turn(b) || use(b) - use(a));
}
