import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { heirsOf } from '#calc/heirs.ts';
import { byId, calledNow } from '#calc/names-now.ts';
import { pouredAt } from '#calc/pot-mix.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix, MixId } from '#model/mix.ts';
import { MixLines } from '#screens/colours/MixLines.tsx';
import { NameForm } from '#screens/colours/NameForm.tsx';
import { Remarks } from '#screens/colours/Remarks.tsx';
import { guessedPxPerMm } from '#screens/colours/TrueSize.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { PhotoStrip } from '#screens/PhotoStrip.tsx';
import { hrefTo } from '#screens/routes.ts';
import { type VolumeUnit, volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { dateWords } from '#screens/words.ts';
import { pxPerMmOf } from '#store/glass.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { isNameless } from '#store/nameless-materials.ts';
import { remarksThat, remarkTables } from '#store/remarks.ts';
import { settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Mix.module.css';

/** A mix that was made up at the table: what was in it, the place to name it, its photos and notes. */
export function NamelessScreen({ mixId }: { mixId: MixId }) {
  const { book, clock } = useShop();
  const found = useLive(
    async () => {
      const heir = heirsOf(await headsOf(book, 'mixes')).get(mixId);
      const { colourwayId = null } = heir ?? {};
      const mix = await headOf(book, 'mixes', mixId);
      const materials = await headsOf(book, 'materials');
      return {
        mix: mix && calledNow(mix, byId(materials)),
        colourway: colourwayId && (await headOf(book, 'colourways', colourwayId)),
        materials,
        unit: (await settingsOf(book)).volumeUnit,
        ...(await remarksThat(book, (one) => one.mixId === mixId)),
      };
    },
    ['colourways', 'materials', 'settings', ...remarkTables],
    mixId,
  );
  if (!found) return null;
  const { mix, colourway } = found;
  if (!mix) return <NotHere what="This mix" back={{ at: 'colours' }} word="Colours" />;
  const day = dayOf(mix.createdAt, clock.zone());
  return (
    <DeskPage
      title="Made up at the table"
      small={dateWords(day, dayOf(clock.now(), clock.zone()))}
      shape="one"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      <div class={styles.plain}>
        <InIt key={mix.id} mix={mix} materials={found.materials} unit={found.unit} />
        {colourway && <GoesBy colourway={colourway} />}
        {!colourway && mix.colourwayId === null && <NameForm mix={mix} />}
      </div>
      {!colourway && (
        <div class={styles.plain}>
          <PhotoStrip mixId={mix.id} />
          <Remarks
            colourwayId={null}
            mix={mix}
            remarks={found.remarks}
            takenOff={found.takenOff}
            moulds={[]}
            pouredIn={[]}
          />
        </div>
      )}
    </DeskPage>
  );
}

/** The colour that the mix is by now, alone or as one of its sides; its photos and notes are there. */
function GoesBy({ colourway }: { colourway: Colourway }) {
  return (
    <Sheet title="It has a name">
      <ActKey
        href={hrefTo({ at: 'colour', colourwayId: colourway.id })}
        small="Its photos and notes are there"
      >
        {colourway.name}
      </ActKey>
    </Sheet>
  );
}

/** What was in it, for the volume it was made up for or any other. */
function InIt({
  mix,
  materials,
  unit,
}: {
  mix: Mix;
  materials: readonly Material[];
  unit: VolumeUnit;
}) {
  const { book } = useShop();
  const [volumeMl, setVolumeMl] = useState(mix.baseMl);
  const stepMl = volumeStepMl(unit);
  const byId = new Map<string, Material>(materials.map((one) => [one.id, one]));
  const pxPerMm = pxPerMmOf(book) ?? guessedPxPerMm();
  const step = (by: number) =>
    setVolumeMl(Math.min(20_000, Math.max(stepMl, (Math.round(volumeMl / stepMl) + by) * stepMl)));
  return (
    <Sheet title="What was in it">
      <Stepper
        label="How much"
        value={volumeWords(volumeMl, unit)}
        small={volumeMl === mix.baseMl ? 'as it was made up' : 'you chose this'}
        lessName={`${volumeWords(stepMl, unit)} less`}
        moreName={`${volumeWords(stepMl, unit)} more`}
        onLess={() => step(-1)}
        onMore={() => step(1)}
      />
      <div class={styles.sides} data-pair={mix.sides.length > 1 || undefined}>
        {mix.sides.map((side) => (
          <section key={side.role} aria-label={side.name}>
            {mix.sides.length > 1 && <h3>Side {side.role === 'b' ? 'B' : 'A'}</h3>}
            <MixLines
              lines={pouredAt(mix.baseMl, side, volumeMl).lines}
              materials={byId}
              pxPerMm={pxPerMm}
            />
          </section>
        ))}
      </div>
      {bottlesOf(mix, byId).map(({ id, name }) => (
        <ActKey key={id} href={hrefTo({ at: 'material-facts', materialId: id })}>
          What is {name}?
        </ActKey>
      ))}
    </Sheet>
  );
}

/** What was given of bottles and jars that have no name yet. */
function bottlesOf({ sides }: Mix, materials: ReadonlyMap<string, Material>): Material[] {
  const ids = new Set(sides.flatMap(({ doses }) => doses.map(({ materialId }) => materialId)));
  return [...ids].flatMap((id) => materials.get(id) ?? []).filter(isNameless);
}
